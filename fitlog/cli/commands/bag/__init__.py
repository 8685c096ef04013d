"""The bag: its clubs, their values, the bench, its seasons."""
