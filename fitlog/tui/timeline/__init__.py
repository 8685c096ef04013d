"""The timeline screen."""
