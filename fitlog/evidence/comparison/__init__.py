"""Clubs and days beside each other, and the order in which they are hit."""
