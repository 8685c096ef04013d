"""One club: its parts, what follows from a change, contradictions, suspects."""
