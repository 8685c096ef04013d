"""The past, looked up: what changed, why, and where to go back to."""
