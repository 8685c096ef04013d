"""What a planned change should do to a player's shots, and how good such predictions were. Computations only."""
