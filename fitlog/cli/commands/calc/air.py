"""calc flight, calc air: one ball in the air of a day."""

from argparse import ArgumentParser, Namespace
from typing import TYPE_CHECKING

from fitlog.cli import output
from fitlog.cli.calc_values import optional_number, print_values, required_number
from fitlog.cli.call import Call
from fitlog.records.errors import UsageError

if TYPE_CHECKING:
    from fitlog.flight.balls.coefficients import Model
    from fitlog.flight.physics.air import Air
    from fitlog.flight.physics.launch import Launch, Wind

_STANDARD_C, _DRY_PCT = 15.0, 0.0  # of the standard air, as the options say
# shares from tests/published/test_flight_error_table.py
MODEL_HELP = (
    "the flight model; the workspace's if left out, else bearman-harvey-2001 (within 3 %% of printed carries of good"
    " players with every club); or ferguson-2022, naruo-2004, bearman-harvey (6 %% short with a driver), smits-smith,"
    " quintavalla"
)
PRESSURE_HELP = "absolute pressure on the spot, in hPa (pascals are understood too); by altitude if left out"
WIND_HELP = (
    "speed and where it comes from, clockwise from the target: 0 into the face, 90 from the right, 180 helping"
)


def flight_arguments(parser: ArgumentParser) -> None:
    """The launch and the air."""
    launch_options(parser)
    air_options(parser)
    model_option(parser)


def model_option(parser: ArgumentParser) -> None:
    """How lift and drag are taken."""
    parser.add_argument("--model", help=MODEL_HELP)


def launch_options(parser: ArgumentParser, needed: bool = True) -> None:
    """How the ball starts."""
    take = required_number if needed else optional_number
    take(parser, "--ball-speed", unit="MPH", help="ball speed")
    take(parser, "--launch", unit="DEG", help="launch angle above the ground")
    take(parser, "--spin", unit="RPM", help="spin")
    required_number(parser, "--axis", unit="DEG", help="tilt of the spin axis, positive curves right", default=0.0)
    required_number(parser, "--direction", unit="DEG", help="start line, right positive", default=0.0)


def air_options(parser: ArgumentParser, otherwise: str = "") -> None:
    """The air and wind to fly in; ``otherwise`` says what is taken without them."""
    optional_number(
        parser,
        "--temperature",
        unit="C",
        help="air temperature; 15 if left out" + (f"; {otherwise}" * bool(otherwise)),
    )
    optional_number(parser, "--pressure", unit="HPA", help=PRESSURE_HELP)
    optional_number(parser, "--humidity", unit="PCT", help="relative humidity; 0 if left out")
    optional_number(parser, "--altitude", unit="M", help="altitude; sea level if left out")
    parser.add_argument("--wind", metavar="MPH@DEG", help=WIND_HELP)


def flight(call: Call) -> int:
    """The flight of one ball."""
    from fitlog.flight.physics.trajectory import SHALLOW, fly

    given = call.args
    model = parse_model(call)
    found = fly(parse_launch(given), parse_air(given), wind_or_calm(given.wind), model=model)
    output.print_note(SHALLOW)
    return print_values(call, {**found._asdict(), "model": model.name})


def parse_model(call: Call) -> "Model":
    """The flight model named, else the workspace's, else the default."""
    from fitlog.flight.balls.coefficients import DEFAULT, find_model

    if call.args.model:
        return find_model(call.args.model)
    try:
        desk = call.desk()
    except UsageError:
        return DEFAULT
    return find_model(desk.workspace.settings_at_hand().flight_model)


def parse_launch(args: Namespace) -> "Launch":
    """The launch that was asked for."""
    from fitlog.flight.physics.launch import Launch

    return Launch(args.ball_speed, args.launch, args.spin, args.axis, args.direction)


def parse_air(args: Namespace, quiet: bool = False) -> "Air":
    """The air that was asked for; ``quiet`` keeps a note back that was given already."""
    from fitlog.flight.physics.air import STANDARD_PRESSURE_PA, Air, as_pascals, pressure_at

    if args.pressure is not None:
        pressure = as_pascals(args.pressure)
        if args.altitude is not None and not quiet:
            output.print_note("the pressure given is the air's own on the spot, so the altitude changes nothing")
    else:
        pressure = STANDARD_PRESSURE_PA if args.altitude is None else pressure_at(args.altitude)
    temperature = _STANDARD_C if args.temperature is None else args.temperature
    return Air(temperature, pressure, _DRY_PCT if args.humidity is None else args.humidity)


def has_air_option(args: Namespace) -> bool:
    """Whether anything of the air was asked for."""
    return any(each is not None for each in (args.temperature, args.pressure, args.humidity, args.altitude))


def wind_or_calm(text: str | None) -> "Wind":
    """The wind that was asked for; none is calm."""
    from fitlog.flight.physics.launch import CALM, parse_wind

    return CALM if text is None else parse_wind(text)


def air_arguments(parser: ArgumentParser) -> None:
    """Temperature, pressure, humidity."""
    required_number(parser, "--temperature", unit="C", help="air temperature")
    optional_number(parser, "--pressure", unit="HPA", help=PRESSURE_HELP)
    required_number(parser, "--humidity", unit="PCT", help="relative humidity", default=0.0)
    optional_number(parser, "--altitude", unit="M", help="altitude, without a pressure; sea level if left out")


def air(call: Call) -> int:
    """Density and viscosity of moist air."""
    from fitlog.flight.physics.air import STANDARD_PRESSURE_PA, Air, as_pascals, pressure_at

    given = call.args
    if given.pressure is not None and given.altitude is not None:
        raise UsageError("a pressure read on the spot needs no altitude", do="leave one of the two out")
    if given.pressure is not None:
        pressure = as_pascals(given.pressure)
    else:
        pressure = STANDARD_PRESSURE_PA if given.altitude is None else pressure_at(given.altitude)
    medium = Air(given.temperature, pressure, given.humidity).medium
    return print_values(call, {**medium._asdict(), "pressure_hpa": pressure / 100})
