"""Two versions made one, by meaning."""
