"""The lock, the notes of unfinished work, and taking it back."""
