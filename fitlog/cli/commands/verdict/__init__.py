"""Decide a test: compare, predict, keep or turn down."""
