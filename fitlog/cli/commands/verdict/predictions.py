"""guess, predictions: what a test will show, and how often that held."""

from argparse import ArgumentParser
from math import isfinite
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.entry.shot_line import read_signed
from fitlog.records.errors import UsageError
from fitlog.records.wording.plurals import format_count

if TYPE_CHECKING:
    from fitlog.views.prediction.outcomes import PredictionRecord, Share

_NAMES = {"predicted": "predictions", "guess": "guesses"}
_HEADS = {"quantity": "by quantity", "change": "by kind of change", "player": "by player", "part": "by part"}
_BAR = 40


def guess_arguments(parser: ArgumentParser) -> None:
    """PLAYER SESSION#TEST QUANTITY=LOW..HIGH …"""
    parsing.player(parser)
    parsing.test(parser)
    parser.add_argument(
        "bands",
        metavar="QUANTITY=LOW..HIGH",
        nargs="+",
        help="the difference from the reference, eight times in ten: carry_yd=2..8 offline_yd=2L..1R",
    )


def guess(call: Call) -> int:
    """Note what you think a test will show, before its first shot."""
    from fitlog.actions.session.guess import note_guess

    given = call.args
    bands = dict(parse_band(each) for each in given.bands)
    return call.report(note_guess(call.writing_desk(), given.player, given.test, bands))


def parse_band(text: str) -> tuple[str, tuple[float, float]]:
    """``QUANTITY=LOW..HIGH`` as its key and ends.

    Raises UsageError for another form.

    >>> parse_band("carry_yd=-2..8"), parse_band("offline_yd=2L..1R")
    (('carry_yd', (-2.0, 8.0)), ('offline_yd', (-2.0, 1.0)))
    """
    key, _, ends = text.partition("=")
    low, dots, high = ends.partition("..")
    if not dots:
        raise UsageError(f"'{text}' is not a guess", do="write, for example, carry_yd=2..8 or offline_yd=2L..1R")
    band = (read_signed(key, low), read_signed(key, high))
    if not all(map(isfinite, band)):
        raise UsageError(f"'{text}' is not a guess", do="write, for example, carry_yd=2..8 or offline_yd=2L..1R")
    return key, band


def predictions_arguments(parser: ArgumentParser) -> None:
    """--player PLAYER."""
    made = parser.add_argument("--player", metavar="PLAYER", default="", help="only this player")
    parsing.from_shell(made, "players")


def predictions(call: Call) -> int:
    """How often the bands held that were written down before the shots."""
    from fitlog.views.prediction.outcomes import prediction_record

    found = prediction_record(call.desk(), call.args.player)
    if call.json:
        output.print_json({name: _plain(found[who]) for who, name in _NAMES.items()})
        return 0
    for who, name in _NAMES.items():
        _show(name, found[who])
    return 0


def _plain(of: "PredictionRecord") -> dict[str, Any]:
    return {
        "outcomes": of.n,
        "picture": [each._asdict() for each in of.picture],
        "groups": {name: [each._asdict() for each in rows] for name, rows in of.groups.items()},
        "factors": {key: each._asdict() for key, each in of.factors.items()},
    }


def _show(name: str, of: "PredictionRecord") -> None:
    if not of.n:
        output.print_line(f"{name}: no outcome yet.")
        return
    output.print_line(f"{name}: {format_count(of.n, 'outcome')}")
    from fitlog.evidence.shots.wording import format_share, interval

    for each in of.picture:
        ends = interval(format_share(each.low), format_share(each.high))
        held = f"{format_share(each.share)} held ({each.held} of {each.n}), {ends}"
        output.print_line(f"  {format_share(each.nominal)} bands  {_bar(each.share, each.nominal)}  {held}")
    for group, head in _HEADS.items():
        rows = [_row(each) for each in sorted(of.groups[group], key=lambda each: -each.n)]
        if rows:
            output.print_line(f"  80 % bands {head}:")
            output.print_table(rows)
    for line in factor_sentences(of):
        output.print_indented(line, "  ")


def _row(each: "Share") -> tuple[str, ...]:
    from fitlog.evidence.shots.wording import format_share

    return (
        f"    {each.label}",
        f"{each.held} of {each.n} held",
        f"{format_share(each.low)} to {format_share(each.high)}",
    )


def _bar(share: float, level: float) -> str:
    """A bar of the share that held, with a mark where it should end."""
    filled, mark = round(share * _BAR), min(round(level * _BAR), _BAR - 1)
    cells = ["#" if place < filled else "." for place in range(_BAR)]
    cells[mark] = "|"
    return "".join(cells)


def factor_sentences(of: "PredictionRecord") -> list[str]:
    """How much the record moves the next bands, or how many outcomes it lacks."""
    from fitlog.evidence.shots.quantities import quantity
    from fitlog.prediction.record import FROM

    out = []
    for key, each in of.factors.items():
        label = quantity(key).label
        if each.outcomes < FROM:
            out.append(
                f"{label}: bands stay as stated; {FROM - each.outcomes} more outcomes are needed to adjust them"
            )
        else:
            way = "widened" if each.factor >= 1 else "narrowed"
            out.append(f"{label}: the next bands are {way} to {each.factor:.2f} of the stated width")
    return out
