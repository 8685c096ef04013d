"""Verdicts."""
