"""Details of a player."""
