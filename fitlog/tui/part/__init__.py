"""The page of one part: its values, where it was tried, and its effect."""
