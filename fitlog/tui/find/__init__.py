"""The find screen."""
