"""One screen a file: what it shows, its keys, what it asks of the actions."""
