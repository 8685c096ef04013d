"""What the program tells of itself: help, and completion in a shell."""
