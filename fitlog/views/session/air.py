"""The air of a session and the reference air, as values and in words."""

from typing import NamedTuple

from fitlog.flight.balls.coefficients import DEFAULT, Model, find_model
from fitlog.flight.physics.air import STANDARD_PRESSURE_PA, Air, pressure_at
from fitlog.flight.physics.launch import CALM, Wind
from fitlog.records.errors import FitlogError, Refusal
from fitlog.records.models.bag import TunedBall
from fitlog.records.models.session import AirRead, Session
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk

# A standing day to compare carries on, where the workspace names none: stated wherever it is used.
STANDING = Air(20.0, STANDARD_PRESSURE_PA, 50.0)
_HUMIDITY_PCT = 50.0
FROM = "0° into the face, 90° from the right"


class Conditions(NamedTuple):
    """What a session's balls flew in, told in ``units``.

    ``model`` is the workspace's flight model. ``day`` is None where the temperature was not noted, ``wind`` where it
    has no direction; ``assumed`` says what was not noted and what was taken instead.
    """

    day: Air | None
    wind: Wind | None
    reference: Air
    assumed: tuple[str, ...]
    units: DisplayUnits
    model: Model = DEFAULT

    @property
    def flight_air(self) -> Air | None:
        """The air to fly in: the day's, else the reference air.

        Returns None where the wind is not known.
        """
        return None if self.wind is None else self.day or self.reference

    @property
    def description(self) -> str:
        """The air and wind that flights are computed in, in words."""
        air = self.flight_air
        if air is None or self.wind is None:
            return ""
        return describe_air_and_wind(air, self.wind, self.units)


def conditions(desk: Desk, session: Session) -> Conditions:
    """A session's air and wind, the reference air, and the flight model."""
    read, at_venue = _with_altitude(desk, session)
    settings = desk.workspace.settings_at_hand()
    reference = reference_air(settings.reference_air)
    day, assumed = _air(read, reference)
    wind = _wind(read)
    if day is None:
        assumed = ["the air of the day was not noted; flights are computed in the reference air"]
    if wind is None:
        assumed = ["the wind has no direction, so no flight is computed"]
    assumed += [at_venue] if at_venue and day is not None else []
    assumed += [desk.workspace.settings_fault] if desk.workspace.settings_fault else []
    model = _own_model(find_model(settings.flight_model), session.tuned)
    return Conditions(day, wind, reference, tuple(assumed), DisplayUnits(settings.units), model)


def _own_model(model: Model, ball: TunedBall | None) -> Model:
    """The model with the session's own ball, where it was tuned by this model."""
    if ball is None or ball.model != model.name:
        return model
    return model._replace(name=f"{model.name}, the player's own ball", drag=ball.drag, lift=ball.lift)


def reference_air(typed: AirRead) -> Air:
    """The workspace's air to compare carries in; a standing day where it names none."""
    return _air(typed, STANDING)[0] or STANDING


def _with_altitude(desk: Desk, session: Session) -> tuple[AirRead, str]:
    """The noted air, its pressure by the venue's altitude if not read; and words."""
    read = session.air
    if not session.venue or read.pressure_hpa is not None or read.altitude_m is not None:
        return read, ""
    try:
        altitude = desk.workspace.venue(session.venue).altitude_m
    except FitlogError:  # named by check
        return read, ""
    if altitude is None:
        return read, ""
    text = f"air pressure was not noted and follows from the {altitude:g} m of {session.venue}"
    return read._replace(altitude_m=altitude), text


def _air(typed: AirRead, reference: Air) -> tuple[Air | None, list[str]]:
    """The noted air, completed from elsewhere; None without a temperature."""
    if typed.temperature_c is None:
        return None, []
    assumed = []
    if typed.pressure_hpa is None and typed.altitude_m is None:
        taken = reference.pressure_pa / 100
        assumed.append(f"air pressure was not noted and taken as the reference air's {taken:.0f} hPa")
    if typed.humidity_pct is None:
        assumed.append(f"humidity was not noted and taken as {_HUMIDITY_PCT:g} %")
    try:
        return complete_air(typed, typed.temperature_c, reference), assumed
    except Refusal:
        return None, []


def complete_air(typed: AirRead, temperature_c: float, reference: Air) -> Air:
    """An air as read; gaps from altitude or reference air, and 50 % humidity.

    Raises Refusal for an air that cannot be.
    """
    if typed.pressure_hpa is not None:
        pressure = typed.pressure_hpa * 100
    elif typed.altitude_m is not None:
        pressure = pressure_at(typed.altitude_m)
    else:
        pressure = reference.pressure_pa
    return Air(temperature_c, pressure, _HUMIDITY_PCT if typed.humidity_pct is None else typed.humidity_pct)


def _wind(typed: AirRead) -> Wind | None:
    if not typed.wind_mph:
        return CALM
    try:
        return None if typed.wind_from_deg is None else Wind(typed.wind_mph, typed.wind_from_deg)
    except Refusal:
        return None


def describe_air_and_wind(air: Air, wind: Wind, units: DisplayUnits) -> str:
    """An air and wind in words.

    >>> describe_air_and_wind(STANDING, Wind(8.0, 90.0), DisplayUnits())
    '20 °C, 1013 hPa, 50 % humidity (1.199 kg/m³), wind 8 mph from 90° (0° into the face, 90° from the right)'
    """
    if not wind.speed_mph:
        return f"{describe_air(air, units)}, calm"
    blows = f"wind {units.format('wind_mph', wind.speed_mph)} from {wind.from_deg:g}° ({FROM})"
    return f"{describe_air(air, units)}, {blows}"


def describe_air(air: Air, units: DisplayUnits) -> str:
    """An air in words, with its density.

    >>> describe_air(STANDING, DisplayUnits())
    '20 °C, 1013 hPa, 50 % humidity (1.199 kg/m³)'
    """
    return (
        f"{units.format('temperature_c', air.temperature_c)}, {air.pressure_pa / 100:.0f} hPa,"
        f" {air.humidity_pct:g} % humidity ({air.density_kg_m3:.3f} kg/m³)"
    )
