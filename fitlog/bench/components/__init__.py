"""What a club is made of."""
