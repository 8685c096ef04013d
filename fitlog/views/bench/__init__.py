"""The bench: one setup with its arithmetic."""
