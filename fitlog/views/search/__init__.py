"""Search across players."""
