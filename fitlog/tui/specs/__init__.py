"""A bag as a grid to type into."""
