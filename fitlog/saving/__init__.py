"""The transaction of every save: lock, pending note, files, commit."""
