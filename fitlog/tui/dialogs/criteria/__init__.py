"""What a test must show, what new tests must show, and the plan of a test."""
