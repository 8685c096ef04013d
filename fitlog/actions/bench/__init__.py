"""The bench: a setup laid out, worked out, searched for in stock, and written back."""
