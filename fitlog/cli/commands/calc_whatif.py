"""calc what-if, calc lofts, calc optimum: what another launch, loft or air would do, before anyone hits it."""

from argparse import ArgumentParser, Namespace
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from fitlog.cli import output
from fitlog.cli.calc_values import optional_number, required_number
from fitlog.cli.call import Call
from fitlog.cli.commands.calc_air import WIND_HELP, air_options, launch_options, parse_air, parse_launch, parse_wind
from fitlog.records.errors import UsageError
from fitlog.records.units import unit_of_key, with_unit

if TYPE_CHECKING:
    from fitlog.flight.air import Air
    from fitlog.flight.launch import Flight, Launch, Wind
    from fitlog.flight.whatif import WhatIf

_LOFT_NOTE = "a change of loft moves launch, spin and speed together, as a rigid head does: differences, no readings"


def what_if_arguments(parser: ArgumentParser) -> None:
    """A launch, its air, and what is different."""
    launch_options(parser)
    air_options(parser)
    changes = parser.add_argument_group("what is different, added to the launch")
    required_number(changes, "--more-speed", unit="MPH", said="ball speed", default=0.0)
    required_number(changes, "--more-launch", unit="DEG", said="launch angle", default=0.0)
    required_number(changes, "--more-spin", unit="RPM", said="spin, such as -400", default=0.0)
    required_number(changes, "--more-axis", unit="DEG", said="tilt of the spin axis", default=0.0)
    required_number(changes, "--more-direction", unit="DEG", said="start direction", default=0.0)
    required_number(changes, "--more-loft", unit="DEG", said="dynamic loft of the same swing", default=0.0)
    other = parser.add_argument_group("another air, in place of the first; what is left out stays")
    optional_number(other, "--to-temperature", unit="C", said="air temperature")
    optional_number(other, "--to-pressure", unit="HPA", said="absolute pressure on the spot")
    optional_number(other, "--to-humidity", unit="PCT", said="relative humidity")
    optional_number(other, "--to-altitude", unit="M", said="altitude, in place of a pressure")
    other.add_argument("--to-wind", metavar="MPH@DEG", help=WIND_HELP)
    _head_options(parser)


def _head_options(parser: ArgumentParser) -> None:
    head = parser.add_argument_group("the head, for a change of loft alone")
    required_number(head, "--attack", unit="DEG", said="attack angle, upward positive", default=0.0)
    required_number(head, "--restitution", unit="E", said="0 to 1", default=0.83)
    required_number(head, "--head-mass", unit="G", said="mass of the head", default=200.0)


def what_if(call: Call) -> int:
    """One flight before and after a change."""
    from fitlog.flight.whatif import Change
    from fitlog.flight.whatif import what_if as ask

    given = call.args
    first_air, first_wind = parse_air(given), parse_wind(given.wind)
    air, wind = _other_air(given), first_wind if given.to_wind is None else parse_wind(given.to_wind)
    amounts = (
        given.more_speed, given.more_launch, given.more_spin, given.more_axis, given.more_direction, given.more_loft,
    )  # fmt: skip
    if not any(amounts) and air == first_air and wind == first_wind:
        raise UsageError(
            "nothing is different", do="say what is, such as --more-loft 1, --more-spin -400 or --to-temperature 30"
        )
    found = ask(parse_launch(given), Change(*amounts, air, wind), first_air, first_wind, **_head(given))
    if given.more_loft:
        output.print_note(_LOFT_NOTE)
    if call.json:
        sides = {
            "before": _side(parse_launch(given), found.before, first_air, first_wind),
            "after": _side(found.launch, found.after, air, wind),
        }
        output.print_json({**sides, "change": found.gain._asdict()})
        return 0
    pairs = zip(parse_launch(given)._asdict().items(), found.launch, strict=True)
    rows = [_row(key, before, after) for (key, before), after in pairs if before or after]
    rows += [
        _row(key, before, after)
        for (key, before), after in zip(found.before._asdict().items(), found.after, strict=True)
    ]
    output.print_table(rows, ("", "BEFORE", "AFTER", "CHANGE"))
    return 0


def _other_air(given: Namespace) -> "Air":
    """The second air: each value given anew in place of the first one's."""
    from fitlog.flight.air import Air, pressure_at

    air = parse_air(given, quiet=True)
    if given.to_pressure is not None and given.to_altitude is not None:
        raise UsageError("a pressure on the spot needs no altitude", do="leave --to-pressure or --to-altitude out")
    pressure = air.pressure_pa
    if given.to_pressure is not None:
        pressure = given.to_pressure * 100
    elif given.to_altitude is not None:
        pressure = pressure_at(given.to_altitude)
    temperature = air.temperature_c if given.to_temperature is None else given.to_temperature
    return Air(temperature, pressure, air.humidity_pct if given.to_humidity is None else given.to_humidity)


def _head(given: Namespace) -> dict[str, Any]:
    return {"attack_deg": given.attack, "restitution": given.restitution, "head_mass_g": given.head_mass}


def _side(launch: "Launch", flight: "Flight", air: "Air", wind: "Wind") -> dict[str, Any]:
    blowing = {"wind_mph": wind.speed_mph, "wind_from_deg": wind.from_deg}
    return {**launch._asdict(), **flight._asdict(), **air._asdict(), "density_kg_m3": air.density_kg_m3, **blowing}


def _row(key: str, before: float, after: float) -> tuple[str, ...]:
    return _label(key), _format(key, before), _format(key, after), f"{after - before:+.{_places(key)}f}"


def _label(key: str) -> str:
    return key.removesuffix("_" + unit_of_key(key)).replace("_", " ")


def _places(key: str) -> int:
    return 0 if key == "spin_rpm" else 2 if key == "time_s" else 1


def _format(key: str, value: float) -> str:
    return with_unit(f"{value:.{_places(key)}f}", unit_of_key(key))


# lofts


def lofts_arguments(parser: ArgumentParser) -> None:
    """A launch and the changes of loft."""
    launch_options(parser)
    parser.add_argument(
        "--by", metavar="DEG", type=float, nargs="+", default=[-2.0, -1.0, 0.0, 1.0, 2.0],
        help="changes of the dynamic loft; -2 -1 0 1 2 if left out",
    )  # fmt: skip
    air_options(parser)
    _head_options(parser)


def lofts(call: Call) -> int:
    """The same swing with more and less loft."""
    from fitlog.flight.whatif import loft_ladder

    given = call.args
    ladder = loft_ladder(parse_launch(given), given.by, parse_air(given), parse_wind(given.wind), **_head(given))
    output.print_note(_LOFT_NOTE)
    steps = list(zip(given.by, ladder, strict=True))
    if call.json:
        output.print_json({"lofts": [_step(by, found) for by, found in steps]})
        return 0
    keys = ("ball_speed_mph", "launch_deg", "spin_rpm", "carry_yd", "apex_yd", "landing_deg")
    rows = [
        (f"{by:+g}°", *(_format(key, _step(by, found)[key]) for key in keys), _gain(found)) for by, found in steps
    ]
    output.print_table(rows, ("LOFT", "BALL SPEED", "LAUNCH", "SPIN", "CARRY", "PEAK", "LANDING", "CARRY CHANGE"))
    return 0


def _step(by: float, found: "WhatIf") -> dict[str, float]:
    gained = found.gain.carry_yd
    return {"loft_change_deg": by, **found.launch._asdict(), **found.after._asdict(), "carry_change_yd": gained}


def _gain(found: "WhatIf") -> str:
    return f"{found.gain.carry_yd:+.1f} yd"


# optimum


def optimum_arguments(parser: ArgumentParser) -> None:
    """A ball speed and the air."""
    required_number(parser, "--ball-speed", unit="MPH", said="ball speed of the player's good strikes")
    required_number(parser, "--within", unit="YD", said="how much carry the ranges may lose", default=1.0)
    air_options(parser)


def optimum(call: Call) -> int:
    """The launch and spin that carry furthest, and how flat that top is."""
    from fitlog.flight.optimum import optimum as search

    given = call.args
    found = search(given.ball_speed, parse_air(given), parse_wind(given.wind), within_yd=given.within)
    if call.json:
        output.print_json(found._asdict())
        return 0
    _show_optimum(found._asdict())
    return 0


def _show_optimum(found: Mapping[str, Any]) -> None:
    launch, spin = found["launch_range_deg"], found["spin_range_rpm"]
    output.print_table(
        [
            ("carry", f"{found['carry_yd']:.1f} yd", ""),
            ("launch", f"{found['launch_deg']:.1f}°", f"{launch[0]:.1f} to {launch[1]:.1f}° at this spin"),
            ("spin", f"{found['spin_rpm']:.0f} rpm", f"{spin[0]:.0f} to {spin[1]:.0f} rpm at this launch"),
        ],
        ("", "FURTHEST", f"WITHIN {found['within_yd']:g} YD OF IT"),
    )
    if found["at_edge"]:
        output.print_line(
            "The top lies at the edge of the measured table of drag and lift (2000 to 6000 rpm): less spin than this"
            " may do as well or better, which nobody measured."
        )
