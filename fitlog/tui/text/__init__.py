"""Numbers and words as the screens show them. No widgets."""
