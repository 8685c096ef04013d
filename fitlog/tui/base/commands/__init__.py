"""Keys and commands: every key once, availability, palette, one key at a time."""
