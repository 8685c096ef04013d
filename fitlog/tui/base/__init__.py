"""What every screen stands on: the page, its commands, the worker, the palette."""
