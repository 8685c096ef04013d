"""What changed, when, by whom and why; and what going back would change."""
