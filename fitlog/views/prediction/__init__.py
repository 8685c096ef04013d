"""Predictions: what a candidate should do, what came of it, and how good predictions were."""
