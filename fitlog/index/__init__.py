"""The derived index: what the files say, in SQLite, for questions over players.

It is never a source of truth. Deleting ``.fitlog/index.sqlite`` loses nothing: it is made again from the files. This
room reads no file of the workspace itself; texts and file stamps are handed to it.
"""
