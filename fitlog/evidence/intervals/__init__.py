"""Summaries and the intervals about them, on which all else stands."""
