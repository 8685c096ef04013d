"""Values, units and counts in words."""
