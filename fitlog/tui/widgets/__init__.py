"""One widget a file: each knows only what it shows."""
