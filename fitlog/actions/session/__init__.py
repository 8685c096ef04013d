"""Changes of a session."""
