"""Tests of the bench as a person works at it."""
