"""One club: filled in from its parts, what follows from a change, contradictions, suspects."""
