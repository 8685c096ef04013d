"""Changes of a bag."""
