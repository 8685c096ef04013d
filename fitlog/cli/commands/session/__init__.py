"""Tests and their shots: set up, planned, typed, imported, watched."""
