"""The parts in stock."""
