"""Files on disk.

Find, read, write whole or not at all, lock, what is pending, schemas.

File names inside a workspace are strings with forward slashes, relative to its root, as git writes them.
"""
