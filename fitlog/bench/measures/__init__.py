"""What is measured of a club, and computed."""
