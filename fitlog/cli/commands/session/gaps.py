"""gaps: how far every club carries, from one file or typed club after club."""

from argparse import ArgumentParser
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.cli.commands.session.imports import file_arguments, take_file
from fitlog.records.errors import FitlogError, Refusal, UsageError

if TYPE_CHECKING:
    from fitlog.records.models.bag import Bag
    from fitlog.views.bag.gaps import Gaps


def gaps_arguments(parser: ArgumentParser) -> None:
    """PLAYER [FILE], --typed and what a file of several clubs needs."""
    parsing.player(parser)
    parser.add_argument("file", metavar="FILE", nargs="?", default="", help="a shot file with the clubs of the bag")
    parser.add_argument(
        "--typed", action="store_true", help="read lines from standard input: a club on its own line, then its shots"
    )
    made = parser.add_argument("--columns", metavar="KEY,KEY…", help="what the numbers typed are")
    parsing.from_shell(made, "measures")
    file_arguments(parser)


def gaps(call: Call) -> int:
    """Show every club's carry and the gaps; take in a file or typed lines first."""
    from fitlog.views.bag.gaps import gaps as view

    given = call.args
    if given.file and given.typed:
        raise UsageError("shots come from a file or are typed, not both", do="leave out FILE or --typed")
    if given.file:
        status = take_file(call, rests=True)
        if call.json or not given.yes or status:
            return status
    elif given.typed:
        _take_typed(call)
    found = view(call.desk(), given.player)
    if call.json:
        output.print_json(_table(found))
    else:
        _show(found)
    return 0


def _table(gaps: "Gaps") -> dict[str, Any]:
    return {"player": gaps.player, "tested": gaps.tested, "clubs": [each._asdict() for each in gaps.rows]}


def _show(gaps: "Gaps") -> None:
    rows = []
    for row in gaps.rows:
        carry, step = row.carry, row.step
        if carry is None:
            rows.append((row.club, "not tested", "", "", "", "", ""))
            continue
        interval = f"{carry.low_yd:.0f} to {carry.high_yd:.0f}" if carry.low_yd and carry.high_yd else ""
        gap = f"{step.yd:.0f} to {step.shorter}" + (f", {step.kind}" if step.kind else "") if step else ""
        stale = ", stale" if carry.stale else ""
        rows.append(
            (row.club, f"{carry.mean_yd:.0f} yd{stale}", interval, str(carry.n), gap, str(carry.on), carry.ball)
        )
    if not rows:
        output.print_line(f"No club is carried yet. Enter the bag with: fitlog specs {gaps.player} FILE")
    output.print_table(rows, ("CLUB", "CARRY", "95 % INTERVAL", "SHOTS", "STEP, YD", "DAY", "BALL"))
    if gaps.tested:
        output.print_line(f"carries as measured; {gaps.tested}")


def _take_typed(call: Call) -> None:
    """Log standard input, club after club; nothing where a line is unreadable."""
    import sys

    from fitlog.actions.session.import_groups import log_lots
    from fitlog.cli.commands.session.tests import parse_columns
    from fitlog.views.session.columns import USUAL_COLUMNS

    desk = call.writing_desk()
    player = desk.workspace.pick_player(call.args.player)
    columns = parse_columns(call.args.columns) or USUAL_COLUMNS
    lots = read_lots(desk.workspace.bag(player), player, _lines(sys.stdin), columns)
    got = log_lots(desk, player, lots, call.args.session, rests=True)
    for note in got.saved.notes:
        output.print_note(note)
    if not call.json:
        output.print_line(got.saved.subject)


def _lines(stream: Any) -> Iterable[str]:
    """The lines typed; a person at the terminal is told how to go on and how to end."""
    if stream is None:
        return []
    if stream.isatty():
        output.print_note("type a club, then a line for each shot, then the next club; Ctrl-D ends and saves")
    lines: list[str] = stream.read().splitlines()
    return lines


def read_lots(bag: "Bag", player: str, lines: Iterable[str], columns: Sequence[str]) -> Any:
    """The lots of typed lines: a club on a line of its own, then its shots.

    Raises UsageError for a shot before any club, Refusal naming the line of a shot that cannot be read.
    """
    from fitlog.actions.session.import_groups import Lot
    from fitlog.records.entry.shot_line import parse_shot_line
    from fitlog.records.entry.slot_words import read_slot
    from fitlog.records.models.bag import choose_club

    shots: dict[str, list[dict[str, Any]]] = {}
    club = ""
    for number, line in enumerate(lines, 1):
        text = line.strip().rstrip(":")
        if not text:
            continue
        if any(text in (each.slot, each.address) for each in bag.club) or read_slot(text).slot:
            club = choose_club(bag, text, player).address
            continue
        if not club:
            raise UsageError(f"line {number}: '{text}' is not a club", do="begin with a club of the bag, such as 7i")
        try:
            shots.setdefault(club, []).append(parse_shot_line(line, columns))
        except FitlogError as error:
            raise Refusal(f"line {number}, {club}: {error.what}", do=error.do) from error
    if not shots:
        raise UsageError("no shot was typed", do="type a club, then a line for each shot")
    return [Lot(address, hit) for address, hit in shots.items()]
