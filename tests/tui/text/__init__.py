"""Tests of what screens write."""
