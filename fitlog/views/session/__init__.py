"""A session as it is read: tests, columns, air."""
