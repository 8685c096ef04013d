"""fitlog: a log of golf-club fitting in plain files under git."""

__version__ = "0.1.0"
