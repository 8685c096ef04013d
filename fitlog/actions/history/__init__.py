"""Going back, and marks in the history."""
