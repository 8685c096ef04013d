"""The workspace as a whole."""
