"""All players, and one player in brief."""
