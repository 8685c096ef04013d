"""Slow work and the machinery behind it: threads, typed shots, exchange, collection of dead objects."""
