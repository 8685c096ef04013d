"""What became of a criterion: its mark, its words and its ink."""

OUTCOMES = {
    "met": ("✓ met", "$ink-good"),
    "missed": ("✗ missed", "$ink-bad"),
    "cannot tell": ("? cannot tell", "$ink-warn"),
}
