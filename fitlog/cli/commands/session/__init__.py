"""Tests and their shots: set up, planned, typed, imported, watched, and what the shots give."""
