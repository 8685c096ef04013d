"""The clubs of a bag in rows: their columns, and what tells rivals apart."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from rich.cells import cell_len

from fitlog.coherence.club.known_club import MEASURED, WRITTEN
from fitlog.records.models.bag import PROVEN
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.words import describe_setup, format_value
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Cell, Column, Row

if TYPE_CHECKING:
    from fitlog.records.models.bag import Club
    from fitlog.views.bag.overview import ClubView

ABOUT = (
    "The clubs by slot. ↑ ↓ choose one, and a slot such as 7i or 52 is gone to as it is typed;"
    " its values are beside or below, each with its date and reason.",
    "Standing: ● proven is a setup to go back to, ○ trial is being played in.",
    "Before a value: = was measured on the bench, ~ is the head's or computed from components, ? with customary"
    " values assumed. Without a sign it is as written.",
    "Marks before a slot: · carried, – at hand but not carried; c carries a club, leaves it at hand or takes it out.",
    "Another ball (key .) makes evidence stale. Make-ups (key ,) are named choices of clubs for a"
    " course or a purpose.",
    "The ladder: each line reaches to the next shorter club, so its length is the step. It is drawn from the carries"
    " of the newest tests that the clubs rest on, in the reference air; in brackets where a test had another ball,"
    " setup or season. Without two carries it is drawn from the lofts: the club's own where set, else the head's.",
    "Gap: over 20 yd to the next club. Overlap: under 5 yd. Lofts under 1° apart are close. Common practice.",
    "The carry card, key (, has the carries at a venue, in another temperature or wind, and wedges by swing.",
)

_MARKS = {MEASURED: "=", WRITTEN: ""}  # before a value; what comes from components has another
_FROM_COMPONENTS = "~"
_WIDE = 110  # cells of a list that has room for the standing in words
_SETUP, _LIE, _LENGTH = 2, 4, 5
_NEVER = 1_000_000  # a column that needs this much is dropped


def columns(units: DisplayUnits, width: int = 200, distinct_width: int = 0) -> tuple[Column, ...]:
    """The columns of the clubs in a list so many cells wide.

    A length has no unit beside it, so its head has.

    A narrow list shows the standing by its mark alone. ``distinct_width`` are the cells that tell clubs of one slot
    apart: lie and length give way before those are cut.
    """
    made = [
        Column("", 1),
        Column("slot", 6, grow=1),
        Column("setup", 18, grow=4),
        Column("loft", 6, right=True),
        Column("lie", 6, right=True),
        Column(f"length {units.symbol('length_in')}", 9, right=True),
        Column("SW", 6),
        Column("standing", 8) if width >= _WIDE else Column("", 1),
        Column("evidence", 8, needs=_WIDE),
    ]
    used = [each.width + 2 for place, each in enumerate(made) if place != _SETUP and each.needs <= width]
    room = width - 1 - sum(used) - 3  # a slot's name may be longer than its column
    for place in (_LIE, _LENGTH):
        if room < distinct_width + 2:
            room += made[place].width + 2
            made[place] = made[place]._replace(needs=_NEVER)
    return tuple(made)


def club_rows(clubs: "Sequence[ClubView]", units: DisplayUnits, width: int = 200) -> list[Row]:
    """A row for each club; rivals for a slot begin with what tells them apart."""
    setups = _setup_words(clubs, units)
    return [
        _club_row(view, ", ".join([*own, *common]), units, width >= _WIDE)
        for view, (own, common) in ((view, setups[view.club.address]) for view in clubs)
    ]


def longest_difference(clubs: "Sequence[ClubView]", units: DisplayUnits) -> int:
    """The cells of the longest text that tells rivals apart; 0 without rivals."""
    return max((cell_len(", ".join(own)) for own, common in _setup_words(clubs, units).values() if common), default=0)


def _setup_words(clubs: "Sequence[ClubView]", units: DisplayUnits) -> dict[str, tuple[list[str], list[str]]]:
    """Each club's setup in words: its own part, and what its rivals share.

    A club without rivals has all as its own.
    """
    out = {}
    parts = {view.club.address: describe_setup(_models(view.club), units).split(", ") for view in clubs}
    for view in clubs:
        mine = parts[view.club.address]
        others = [each.club.address for each in clubs if each.club.slot == view.club.slot and each is not view]
        common = set(mine).intersection(*(parts[each] for each in others)) if others else set()
        own = [each for each in mine if each not in common]
        out[view.club.address] = (own, [each for each in mine if each in common])
    return out


def _club_row(view: "ClubView", described: str, units: DisplayUnits, in_words: bool) -> Row:
    club = view.club
    weight = view.swing_weight
    doubt = "?" if weight.origin.endswith("values") else ""
    swing_weight = f"{_MARKS.get(weight.origin, _FROM_COMPONENTS)}{weight.text}{doubt}" if weight.text else "–"
    standing: Cell = ("● proven", "good") if club.standing == PROVEN else ("○ trial", "accent")
    last = max((each[:10] for each in club.evidence), default="")
    tone = "" if club.carried else "muted"
    return Row(
        club.address,
        [
            ("·" if club.carried else "–", "muted"),
            (safe(club.slot if not club.id else club.address), "strong" if club.carried else "muted"),
            (safe(described), tone),
            _known_cell(view, "loft_deg", units, tone),
            _known_cell(view, "lie_deg", units, tone),
            _known_cell(view, "length_in", units, tone),
            (swing_weight, "" if weight.origin == "measured" else "muted"),
            standing if in_words else (standing[0][:1], standing[1]),
            (f"{len(club.evidence)}× {last[5:]}" if last else "–", "muted"),
        ],
    )


def _known_cell(view: "ClubView", key: str, units: DisplayUnits, tone: str) -> Cell:
    """A value behind the mark of where it comes from."""
    found = view.known_value(key)
    if found is None:
        return ("–", tone)
    mark = _MARKS.get(found.source, _FROM_COMPONENTS)
    text = f"{found.value:.1f}°" if key.endswith("_deg") else format_value(key, found.value, False, units)
    return (mark + text, tone if found.source in _MARKS else "muted")


def _models(club: "Club") -> dict[str, Any]:
    """The setup without what has its own column."""
    head = {key: value for key, value in dict(club.raw.get("head", {})).items() if key != "loft_deg"}
    return {**{key: value for key, value in club.raw.items() if key != "length_in"}, "head": head}
