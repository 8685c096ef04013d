"""What the shots of a test support, and what they do not; computations only."""
