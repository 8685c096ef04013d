"""calc what-if, calc lofts: what another launch, loft or air would do."""

from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.cli import output
from fitlog.cli.calc_values import optional_number, required_number
from fitlog.cli.call import Call
from fitlog.cli.commands.calc.air import (
    WIND_HELP,
    air_options,
    launch_options,
    model_option,
    parse_air,
    parse_model,
    wind_or_calm,
)
from fitlog.records.errors import UsageError
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.units import unit_of_key, with_unit

if TYPE_CHECKING:
    from fitlog.flight.physics.air import Air
    from fitlog.flight.physics.launch import Flight, Launch, Wind
    from fitlog.flight.whatif import WhatIf

_LOFT_NOTE = "a change of loft moves launch, spin and speed together"


class Start(NamedTuple):
    """A launch, and what else the flights before and after are computed with."""

    launch: "Launch"
    how: dict[str, Any]
    of_loft: str  # what to know of a change of loft from here


def what_if_arguments(parser: ArgumentParser) -> None:
    """A launch, its air, and what is different."""
    launch_options(parser, needed=False)
    _own_shots(parser)
    air_options(parser)
    model_option(parser)
    changes = parser.add_argument_group("what is different, added to the launch")
    required_number(changes, "--more-speed", unit="MPH", help="ball speed", default=0.0)
    required_number(changes, "--more-launch", unit="DEG", help="launch angle", default=0.0)
    required_number(changes, "--more-spin", unit="RPM", help="spin, such as -400", default=0.0)
    required_number(changes, "--more-axis", unit="DEG", help="tilt of the spin axis", default=0.0)
    required_number(changes, "--more-direction", unit="DEG", help="start line", default=0.0)
    required_number(changes, "--more-loft", unit="DEG", help="dynamic loft of the same swing", default=0.0)
    other = parser.add_argument_group("another air, in place of the first; what is left out stays")
    optional_number(other, "--to-temperature", unit="C", help="air temperature")
    optional_number(other, "--to-pressure", unit="HPA", help="absolute pressure on the spot")
    optional_number(other, "--to-humidity", unit="PCT", help="relative humidity")
    optional_number(other, "--to-altitude", unit="M", help="altitude, in place of a pressure")
    other.add_argument("--to-wind", metavar="MPH@DEG", help=WIND_HELP)
    _head_options(parser)


def _head_options(parser: ArgumentParser) -> None:
    head = parser.add_argument_group("the head, for a change of loft alone")
    optional_number(
        head, "--attack", unit="DEG", help="attack angle, upward positive; of the shots, or 0 if left out"
    )
    head.add_argument("--club", choices=("driver", "wood", "iron", "wedge"), help="kind of head; driver if left out")
    optional_number(head, "--restitution", unit="E", help="0 to 1; of the kind of head if left out")
    optional_number(head, "--head-weight", unit="G", help="weight of the head; of the kind of head if left out")


def _own_shots(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--of",
        nargs=2,
        metavar=("PLAYER", "SESSION#TEST"),
        help="the mean launch of these shots in place of a typed one",
    )


def _start(call: Call) -> "Start":
    """The launch to start from: of a test's shots, or typed whole."""
    from fitlog.flight.physics.impact import HEADS, TRUST
    from fitlog.flight.physics.launch import Launch
    from fitlog.views.flight.own_launch import attack_or_level, describe_attack

    given = call.args
    typed = {"--ball-speed": given.ball_speed, "--launch": given.launch, "--spin": given.spin}
    left_out = [name for name, value in typed.items() if value is None]
    if given.of:
        from fitlog.views.flight.own_launch import own_launch

        if len(left_out) < len(typed):
            raise UsageError("a launch was typed beside the shots to take it from", do="leave one of the two out")
        own = own_launch(call.desk(), *given.of)
        attack, head, launch = own.attack_deg, own.head, own.launch
        output.print_note("; ".join((f"launch: mean of {format_count(own.n, 'shot')} of {own.ref}", *own.assumed)))
    else:
        if left_out:
            raise UsageError(
                f"{', '.join(left_out)} missing", do="type the whole launch, or --of PLAYER SESSION#TEST"
            )
        attack, head = None, HEADS["driver"]
        launch = Launch(given.ball_speed, given.launch, given.spin, given.axis, given.direction)
    head = HEADS[given.club] if given.club else head
    attack = attack if given.attack is None else given.attack
    return Start(
        launch,
        {
            "attack_deg": attack_or_level(attack),
            "restitution": head.restitution if given.restitution is None else given.restitution,
            "head_mass_g": head.mass_g if given.head_weight is None else given.head_weight,
            "tangential": head.tangential,
            "model": parse_model(call),
        },
        "; ".join((_LOFT_NOTE, *([] if attack is not None else [describe_attack(attack)]), TRUST)),
    )


def what_if(call: Call) -> int:
    """One flight before and after a change."""
    from fitlog.flight.balls.coefficients import describe_model
    from fitlog.flight.physics.trajectory import SHALLOW
    from fitlog.flight.whatif import LaunchChange
    from fitlog.flight.whatif import what_if as ask

    given = call.args
    first_air, first_wind = parse_air(given), wind_or_calm(given.wind)
    air, wind = _other_air(given), first_wind if given.to_wind is None else wind_or_calm(given.to_wind)
    amounts = (
        given.more_speed, given.more_launch, given.more_spin, given.more_axis, given.more_direction, given.more_loft,
    )  # fmt: skip
    if not any(amounts) and air == first_air and wind == first_wind:
        raise UsageError(
            "nothing is different", do="say what is, such as --more-loft 1, --more-spin -400 or --to-temperature 30"
        )
    start = _start(call)
    found = ask(start.launch, LaunchChange(*amounts, air, wind), first_air, first_wind, **start.how)
    output.print_note(f"computed {describe_model(start.how['model'].name)}; {SHALLOW}")
    if given.more_loft:
        output.print_note(start.of_loft)
    if call.json:
        sides = {
            "before": _side(start.launch, found.before, first_air, first_wind),
            "after": _side(found.launch, found.after, air, wind),
        }
        output.print_json({**sides, "change": found.gain._asdict(), "model": start.how["model"].name})
        return 0
    pairs = zip(start.launch._asdict().items(), found.launch, strict=True)
    rows = [_row(key, before, after) for (key, before), after in pairs if before or after]
    rows += [
        _row(key, before, after)
        for (key, before), after in zip(found.before._asdict().items(), found.after, strict=True)
    ]
    output.print_table(rows, ("", "BEFORE", "AFTER", "CHANGE"))
    return 0


def _other_air(args: Namespace) -> "Air":
    """The second air: each value given anew in place of the first one's."""
    from fitlog.flight.physics.air import Air, as_pascals, pressure_at

    air = parse_air(args, quiet=True)
    if args.to_pressure is not None and args.to_altitude is not None:
        raise UsageError("a pressure on the spot needs no altitude", do="leave --to-pressure or --to-altitude out")
    pressure = air.pressure_pa
    if args.to_pressure is not None:
        pressure = as_pascals(args.to_pressure)
    elif args.to_altitude is not None:
        pressure = pressure_at(args.to_altitude)
    temperature = air.temperature_c if args.to_temperature is None else args.to_temperature
    return Air(temperature, pressure, air.humidity_pct if args.to_humidity is None else args.to_humidity)


def _side(launch: "Launch", flight: "Flight", air: "Air", wind: "Wind") -> dict[str, Any]:
    blowing = {"wind_mph": wind.speed_mph, "wind_from_deg": wind.from_deg}
    return {**launch._asdict(), **flight._asdict(), **air._asdict(), "density_kg_m3": air.density_kg_m3, **blowing}


def _row(key: str, before: float, after: float) -> tuple[str, ...]:
    return _label(key), _format(key, before), _format(key, after), f"{after - before:+.{_decimals(key)}f}"


_NAMES = {"peak_height_yd": "peak height", "descent_deg": "descent angle", "launch_deg": "launch angle"}


def _label(key: str) -> str:
    return _NAMES.get(key) or key.removesuffix("_" + unit_of_key(key)).replace("_", " ")


def _decimals(key: str) -> int:
    return 0 if key == "spin_rpm" else 2 if key == "time_s" else 1


def _format(key: str, value: float) -> str:
    return with_unit(f"{value:.{_decimals(key)}f}", unit_of_key(key))


# lofts


def lofts_arguments(parser: ArgumentParser) -> None:
    """A launch and the changes of loft."""
    launch_options(parser, needed=False)
    _own_shots(parser)
    model_option(parser)
    parser.add_argument(
        "--by", metavar="DEG", type=float, nargs="+", default=[-2.0, -1.0, 0.0, 1.0, 2.0],
        help="changes of the dynamic loft; -2 -1 0 1 2 if left out",
    )  # fmt: skip
    air_options(parser)
    _head_options(parser)


def lofts(call: Call) -> int:
    """The same swing with more and less loft."""
    from fitlog.flight.balls.coefficients import describe_model
    from fitlog.flight.physics.trajectory import SHALLOW
    from fitlog.flight.whatif import loft_ladder

    given, start = call.args, _start(call)
    ladder = loft_ladder(start.launch, given.by, parse_air(given), wind_or_calm(given.wind), **start.how)
    output.print_note(start.of_loft)
    output.print_note(f"computed {describe_model(start.how['model'].name)}; {SHALLOW}")
    steps = list(zip(given.by, ladder, strict=True))
    if call.json:
        output.print_json({"lofts": [_step(by, found) for by, found in steps], "model": start.how["model"].name})
        return 0
    keys = ("ball_speed_mph", "launch_deg", "spin_rpm", "carry_yd", "peak_height_yd", "descent_deg")
    rows = [
        (f"{by:+g}°", *(_format(key, _step(by, found)[key]) for key in keys), _gain(found)) for by, found in steps
    ]
    output.print_table(
        rows, ("LOFT", "BALL SPEED", "LAUNCH", "SPIN", "CARRY", "PEAK HEIGHT", "DESCENT", "CARRY CHANGE")
    )
    return 0


def _step(by: float, result: "WhatIf") -> dict[str, float]:
    gained = result.gain.carry_yd
    return {"loft_change_deg": by, **result.launch._asdict(), **result.after._asdict(), "carry_change_yd": gained}


def _gain(result: "WhatIf") -> str:
    return f"{result.gain.carry_yd:+.1f} yd"
