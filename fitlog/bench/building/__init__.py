"""How to build a club to an aim."""
