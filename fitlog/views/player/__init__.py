"""What is written of a player."""
