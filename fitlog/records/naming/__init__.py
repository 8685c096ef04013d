"""Ids, references, slots and file names."""
