"""The session screen."""
