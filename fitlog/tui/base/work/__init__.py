"""Slow work: threads, typed shots, exchange, collection of dead objects."""
