"""Arithmetic on plain values: no workspace is needed."""
