"""Pure edits of an open TOML document, shared by a plan and by the action that carries it out.

Nothing here locks, saves or commits.
"""
