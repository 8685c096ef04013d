"""Pure edits of an open TOML document, shared by a plan and its action.

Nothing here locks, saves or commits.
"""
