"""Short questions over a screen: a plan, a line to type, Enter."""
