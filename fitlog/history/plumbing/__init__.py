"""git itself: run, made safe, kept in order, shared."""
