"""Whether a criterion is met, and what more shots would settle."""
