"""The pictures of the README, made from the demo: ``python -m tests.pictures``."""
