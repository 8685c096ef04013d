"""Venues as they are read: values, since when and why, their usual air."""
