"""bag: the clubs in play, at any time.

This command is on the start-up budget: it loads next to nothing.
"""

from typing import TYPE_CHECKING

from fitlog.cli import output
from fitlog.cli.call import Call

if TYPE_CHECKING:
    from argparse import ArgumentParser

    from fitlog.records.models.bag import Club
    from fitlog.records.wording.display_units import DisplayUnits
    from fitlog.views.bag.snapshot import BagSnapshot


def bag_arguments(parser: "ArgumentParser") -> None:
    """PLAYER, --at, --csv, --md."""
    from fitlog.cli import parsing
    from fitlog.cli.table_formats import form_option

    parsing.player(parser)
    form_option(parser)
    parser.add_argument("--at", metavar="WHEN", default="", help=parsing.WHEN_HELP)


def bag(call: Call) -> int:
    """Show the bag."""
    from fitlog.views.bag.snapshot import bag_at as view_of
    from fitlog.views.bag.snapshot import bag_table

    desk = call.desk()
    view = view_of(desk, call.args.player, call.args.at)
    if call.json:
        output.print_json(bag_table(view))
        return 0
    from fitlog.records.wording.display_units import DisplayUnits  # reading the settings costs more than the bag

    units = DisplayUnits(desk.workspace.settings_at_hand().units)
    if call.args.form:
        from fitlog.cli.table_formats import table_text

        heads = ("slot", "setup", "loft", "lie", "standing", "since", "carried")
        rows = [(*_row(club, units)[:-1], "yes" if club.carried else "no") for club in view.bag.clubs]
        output.print_lines(table_text(heads, rows, call.args.form))
    else:
        _show(view, units)
    return 0


def _show(view: "BagSnapshot", units: "DisplayUnits") -> None:
    from fitlog.records.wording.words import format_value

    of = view.bag
    parts = [view.player, f"season {of.season}" if of.season else "", "" if view.label == "now" else view.label]
    output.print_line(", ".join(filter(None, parts)))
    ball = " ".join(format_value(key, value) for key, value in of.ball._asdict().items() if value is not None)
    if ball:
        output.print_line(f"ball: {ball}")
    if not of.club:
        output.print_line(
            f"No clubs yet. Put one in with: fitlog bag-set {view.player} SLOT --set KEY=VALUE --reason TEXT"
        )
    output.print_table(
        [_row(club, units) for club in of.clubs], ("SLOT", "SETUP", "LOFT", "LIE", "STANDING", "SINCE", "")
    )
    for makeup in of.makeup:
        at = f" at {makeup.venue}" if makeup.venue else ""
        output.print_line(f"make-up {makeup.name}{at}: {', '.join(makeup.clubs)}")


def _row(club: "Club", units: "DisplayUnits") -> tuple[str, ...]:
    from fitlog.records.models.bag import club_setup
    from fitlog.records.wording.words import describe_setup, format_value

    def value(key: str, text: object) -> str:
        return "" if text is None else format_value(key, text)

    return (
        club.address,
        describe_setup(club_setup(club), units),
        value("loft_deg", club.setup.loft_deg),
        value("lie_deg", club.setup.lie_deg),
        club.standing,
        value("since", club.since),
        "" if club.carried else "not carried",
    )
