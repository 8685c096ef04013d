"""Commands that several screens share: what each does, and when it works."""
