"""What is read off a shot: its values, the words for them, and what looks odd as it is typed."""
