"""Sheets to hand over, and the page that follows a session."""
