"""The page of one part: what is stated of it, where it was tried, and what it did for players."""
