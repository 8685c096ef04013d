"""Look back, go back, and find what was tried."""
