"""Evidence of a test and what each decision would change."""
