"""Evidence: what the shots of a test support, and what they do not. Computations only, no files, no screens."""
