"""Predictions: what a candidate should do, what came of it, how good they were."""
