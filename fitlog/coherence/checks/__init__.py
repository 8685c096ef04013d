"""What to look at in a bag: carries, evenness, grips, the rules, stale evidence."""
