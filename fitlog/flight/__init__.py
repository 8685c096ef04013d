"""Air, impact and the flight of the ball: plain values in, plain values out."""
