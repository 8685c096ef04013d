"""git: commits with a reason, differences by meaning, why, restore, undo.

History is only ever added to. Files of the workspace are written elsewhere; this room reads and commits them.
"""
