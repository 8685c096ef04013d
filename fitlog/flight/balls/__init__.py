"""The ball: its size, its drag and its lift."""
