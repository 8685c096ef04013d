"""The board screen."""
