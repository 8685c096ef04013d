"""optimum: the furthest carry in reach of a club, by the player's shots."""

from argparse import ArgumentParser
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.calc_values import required_number
from fitlog.cli.call import Call
from fitlog.cli.commands.calc.air import air_options, has_air_option, parse_air, wind_or_calm
from fitlog.records.wording.plurals import format_count

if TYPE_CHECKING:
    from fitlog.views.flight.reach import Reach


def optimum_arguments(parser: ArgumentParser) -> None:
    """A club, the shots to start from, the air to compare in."""
    parsing.player(parser)
    parsing.slot(parser)
    parser.add_argument("--test", metavar="SESSION#TEST", default="", help="the shots to start from; else the newest")
    required_number(
        parser,
        "--within",
        unit="YD",
        help="lofts count as equally long within this much carry of the furthest",
        default=1.0,
    )
    air_options(parser, "the workspace's reference air if nothing of it is given")


def optimum(call: Call) -> int:
    """Show the lofts that a club can get, flown, and the furthest of them."""
    from fitlog.views.flight.reach import best_in_reach

    given = call.args
    air = parse_air(given) if has_air_option(given) else None
    reach = best_in_reach(
        call.desk(), given.player, given.slot, given.test, air, wind_or_calm(given.wind), given.within
    )
    if call.json:
        output.print_json(_plain(reach))
        return 0
    _print_reach(reach)
    return 0


def _plain(reach: "Reach") -> dict[str, Any]:
    def step(each: Any) -> dict[str, Any]:
        change = {"name": each.name, "loft_change_deg": each.loft_change_deg}
        return {**change, **each.launch._asdict(), **each.flight._asdict()}

    from fitlog.flight.physics.impact import TRUST

    own, found = reach.own, reach.optimum
    return {
        "test": own.ref,
        "shots": own.n,
        "attack_deg": own.attack_deg,
        "assumed": own.assumed,
        "air": reach.air._asdict(),
        "model": own.around.model.name,
        "impact": TRUST,
        "lofts": [step(each) for each in found.options],
        "best": step(found.best),
        "within_yd": found.within_yd,
        "flat_loft_change_deg": found.flat_deg,
        "at_end": found.at_end,
        "refused": found.refusals,
    }


def _print_reach(reach: "Reach") -> None:
    from fitlog.flight.balls.coefficients import describe_model
    from fitlog.flight.physics.impact import TRUST
    from fitlog.flight.physics.trajectory import SHALLOW
    from fitlog.views.flight.own_launch import describe_attack
    from fitlog.views.session.air import describe_air

    own, found = reach.own, reach.optimum
    now = next((each for each in found.options if not each.loft_change_deg), found.best)
    rows = [
        (
            ("> " if each is found.best else "  ") + each.name,
            f"{each.loft_change_deg:+.1f}°",
            f"{each.launch.ball_speed_mph:.1f} mph",
            f"{each.launch.launch_deg:.1f}°",
            f"{each.launch.spin_rpm:.0f} rpm",
            f"{each.flight.carry_yd:.1f} yd",
            f"{each.flight.carry_yd - now.flight.carry_yd:+.1f} yd",
            f"{each.flight.descent_deg:.0f}°",
        )
        for each in found.options
    ]
    output.print_table(rows, ("  LOFT", "CHANGE", "BALL SPEED", "LAUNCH", "SPIN", "CARRY", "GAIN", "DESCENT"))
    low, high = found.flat_deg
    output.print_line(
        f"Furthest in reach: {found.best.name}. Loft changes from {low:+.1f} to {high:+.1f}° carry within"
        f" {found.within_yd:g} yd of it."
    )
    if found.at_end:
        output.print_line("It is the last loft in reach: going on the same way might carry further.")
    how = "; ".join((describe_attack(own.attack_deg), *own.assumed))
    output.print_note(f"from {format_count(own.n, 'shot')} of {own.ref}, {how}")
    output.print_note(TRUST)
    output.print_note(
        f"computed {describe_model(own.around.model.name)} in {describe_air(reach.air, own.around.units)}; {SHALLOW}"
    )
    for each in found.refusals:
        output.print_note(f"not computed: {each}")
