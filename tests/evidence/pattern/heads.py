"""Strikes along the face of a head that loses ball speed away from its middle."""

NOISE = (0.3, -0.4, 0.1, 0.5, -0.5, -0.1, 0.2, -0.2)


def head(loss: float, centre: float = 150.0) -> list[dict[str, object]]:
    """Eight strikes along the face that lose ``loss`` mph a millimetre."""
    places = (-14, -9, -4, -1, 2, 6, 11, 15)
    return [
        {"strike_x_mm": x, "strike_y_mm": 0.0, "ball_speed_mph": centre - loss * abs(x) + e, "direction_deg": 0.1 * x}
        for x, e in zip(places, NOISE, strict=True)
    ]
