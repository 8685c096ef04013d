"""bag: the clubs in play, now or at any time. This command is on the start-up budget: it loads next to nothing."""

from typing import TYPE_CHECKING

from fitlog.cli import output
from fitlog.cli.call import Call

if TYPE_CHECKING:
    from argparse import ArgumentParser
    from collections.abc import Sequence
    from types import SimpleNamespace

    from fitlog.records.bag import Club
    from fitlog.views.bag.snapshot import BagView


def bag_arguments(parser: "ArgumentParser") -> None:
    """PLAYER, --at."""
    from fitlog.cli import parsing

    parsing.player(parser)
    parser.add_argument("--at", metavar="WHEN", default="", help="a revision, a date, or a season that was closed")


def bag_quick(argv: "Sequence[str]") -> "SimpleNamespace | None":
    """A plain call, read without argparse."""
    from fitlog.cli.quick import read

    return read(["player"], {"at": ""}, argv)


def bag(call: Call) -> int:
    """Show the bag."""
    from fitlog.views.bag.snapshot import bag as view_of
    from fitlog.views.bag.snapshot import bag_table

    view = view_of(call.desk(), call.args.player, call.args.at)
    if call.json:
        output.print_json(bag_table(view))
    else:
        _show(view)
    return 0


def _show(view: "BagView") -> None:
    from fitlog.records.words import value_text

    of = view.bag
    parts = [view.player, f"season {of.season}" if of.season else "", "" if view.said == "now" else view.said]
    output.say(", ".join(filter(None, parts)))
    ball = " ".join(value_text(key, value) for key, value in of.ball._asdict().items() if value is not None)
    if ball:
        output.say(f"ball: {ball}")
    if not of.club:
        output.say(f"No clubs yet. Put one in with: fitlog bag-set {view.player} SLOT --set KEY=VALUE --reason TEXT")
    output.table([_row(club) for club in of.clubs], ("SLOT", "SETUP", "LOFT", "LIE", "STANDING", "SINCE", ""))
    for makeup in of.makeup:
        output.say(f"make-up {makeup.name}: {', '.join(makeup.clubs)}")


def _row(club: "Club") -> tuple[str, ...]:
    from fitlog.records.bag import club_setup
    from fitlog.records.words import setup_text, value_text

    def value(key: str, given: object) -> str:
        return "" if given is None else value_text(key, given)

    return (
        club.address,
        setup_text(club_setup(club)),
        value("loft_deg", club.setup.loft_deg),
        value("lie_deg", club.setup.lie_deg),
        club.standing,
        value("since", club.since),
        "" if club.carried else "not carried",
    )
