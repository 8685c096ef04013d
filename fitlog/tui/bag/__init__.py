"""The bag screen."""
