"""A test as a whole: everything found, what limits it, and the sentences for it."""
