"""What a change should do to a player's shots, and how good predictions were."""
