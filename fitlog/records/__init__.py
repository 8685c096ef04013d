"""What is written down: typed records and their own rules. No input or output."""
