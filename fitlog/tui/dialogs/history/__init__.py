"""Dialogs about the past: why a value is what it is, season beside season."""
