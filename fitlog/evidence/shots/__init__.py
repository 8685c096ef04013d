"""What is read off a shot: its values, their words, and what looks odd."""
