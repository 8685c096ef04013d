"""Air, impact and trajectory: the physics that the other modules use."""
