"""The keys that lead from the Bag to each screen of a player."""

PLAYER_SCREENS = ((), ("down", "s"), ("d",), ("h",))
