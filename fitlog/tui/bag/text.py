"""A bag in rows and words: its clubs, the chosen one's values with since when and why, what to look at."""

from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from rich.cells import cell_len
from textual.content import Content

from fitlog.records.bag import PROVEN
from fitlog.records.display_units import DisplayUnits
from fitlog.records.fields import flatten
from fitlog.records.words import describe_setup, format_label, format_value
from fitlog.tui.bag.ladder import Rung
from fitlog.tui.text.sanitize import padded, safe, shortened, wrap
from fitlog.tui.widgets.rows import Cell, Column, Row
from fitlog.tui.widgets.scroll_text import bullet, heading, line

if TYPE_CHECKING:
    from fitlog.coherence.carries import Carry
    from fitlog.history.why import Step
    from fitlog.records.bag import Club
    from fitlog.saving.conflicts import Choice
    from fitlog.views.bag.overview import BagOverview, ClubView, Remarks

ABOUT = (
    "The clubs by slot. ↑ ↓ choose one; beside or below stand its values, each with since when and why.",
    "Standing: ● proven is a setup to go back to, ○ trial is being played in.",
    "Swing weight: = was measured on the bench, ~ is computed from components, ? with customary values assumed.",
    "Marks before a slot: · carried, – at hand but not carried; c carries a club or leaves it at hand.",
    "Another ball (key .) makes evidence stale. Make-ups (key ,) are named choices of clubs for a"
    " course or a purpose.",
    "Loft: the club's own where it is set, else the head's. Carry beside the ladder: the mean of the newest test"
    " that the club rests on, in brackets where that test had another ball, setup or season.",
)

_NOT_VALUES = ("slot", "id", "evidence", "standing", "since", "carried")
_MARKS = {"read": "=", "computed": "~", "computed with customary values": "~"}
_HOW = {"read": "measured on the bench", "computed": "computed from the components"}


def columns(units: DisplayUnits) -> tuple[Column, ...]:
    """The columns of the clubs; a length has no unit beside it, so its head has."""
    return (
        Column("", 1),
        Column("slot", 6, grow=1),
        Column("setup", 18, grow=4),
        Column("loft", 5, right=True),
        Column("lie", 5, right=True, needs=70),
        Column(f"length {units.symbol('length_in')}", 9, right=True),
        Column("SW", 6),
        Column("standing", 8),
        Column("evidence", 8, needs=96),
    )


def club_rows(clubs: "Sequence[ClubView]", units: DisplayUnits) -> list[Row]:
    """A row for each club; of several in one slot each begins with what tells it from the others."""
    setups = {view.club.address: describe_setup(_models(view.club), units) for view in clubs}
    for slot in {view.club.slot for view in clubs}:
        rivals = [view.club.address for view in clubs if view.club.slot == slot]
        parts = {each: setups[each].split(", ") for each in rivals}
        common = set.intersection(*(set(each) for each in parts.values())) if len(rivals) > 1 else set()
        setups |= {each: ", ".join(sorted(parts[each], key=common.__contains__)) for each in rivals if common}
    return [_club_row(view, setups[view.club.address], units) for view in clubs]


def _club_row(view: "ClubView", described: str, units: DisplayUnits) -> Row:
    club = view.club
    setup = club.setup
    weight = view.swing_weight
    doubt = "?" if weight.how.endswith("values") else ""
    shown = f"{_MARKS[weight.how]}{weight.text}{doubt}" if weight.text else "–"
    standing: Cell = ("● proven", "good") if club.standing == PROVEN else ("○ trial", "accent")
    last = max((each[:10] for each in club.evidence), default="")
    tone = "" if club.carried else "muted"
    return Row(
        club.address,
        [
            ("·" if club.carried else "–", "muted"),
            (safe(club.slot if not club.id else club.address), "strong" if club.carried else "muted"),
            (safe(described), tone),
            (f"{view.loft_deg:.1f}°" if view.loft_deg is not None else "–", tone),
            (f"{setup.lie_deg:.1f}°" if setup.lie_deg is not None else "–", tone),
            (format_value("length_in", setup.length_in, False, units) if setup.length_in is not None else "–", tone),
            (shown, "" if weight.how == "read" else "muted"),
            standing,
            (f"{len(club.evidence)}× {last[5:]}" if last else "–", "muted"),
        ],
    )


def _models(club: "Club") -> dict[str, Any]:
    """The setup without what has its own column."""
    head = {key: value for key, value in dict(club.raw.get("head", {})).items() if key != "loft_deg"}
    return {**{key: value for key, value in club.raw.items() if key != "length_in"}, "head": head}


def value_lines(
    view: "ClubView", origins: "Mapping[str, Step] | None", units: DisplayUnits, width: int, wide: bool
) -> list[Content]:
    club = view.club
    standing = "● proven" if club.standing == PROVEN else "○ trial"
    since = f" since {club.since}" if club.since else ""
    carried = "" if club.carried else ", at hand, not carried"
    rests = (("evidence ", "$ink-muted"), safe(", ".join(club.evidence) or "none"))
    fits = sum(map(cell_len, (standing, since, carried, rests[0][0], rests[1]))) + 2 <= width
    beside, below = ((("  ", ""), *rests), []) if fits else ((), [line(*rests)])
    described = describe_setup(club.raw, units)
    out = [
        heading(safe(club.address), safe(shortened(described, width - len(club.address) - 2))),
        line((standing, "$ink-good" if club.standing == PROVEN else "$ink-accent"), f"{since}{carried}", *beside),
        *below,
    ]
    weight = view.swing_weight
    found = [("swing weight", weight.text, _HOW.get(weight.how, weight.how))] if weight.text else []
    for key, value in flatten(club.raw):
        if key not in _NOT_VALUES:
            step = (origins or {}).get(key)
            why = "…" if origins is None else _because(step)
            found.append((format_label(key), format_value(key, value, units=units), why))
    return out + (_by_change(found, width) if wide else _in_rows(found, width))


def _in_rows(found: Sequence[tuple[str, str, str]], width: int) -> list[Content]:
    """Name, value, and since when and why in one row each; what came with the value before has a ditto mark."""
    names = min(max((len(name) for name, _, _ in found), default=0), 16)
    values = min(max((cell_len(value) for _, value, _ in found), default=0), 20)
    out = []
    before = ""
    for name, value, why in found:
        told = "″" if why == before else shortened(safe(why), max(width - names - values - 4, 10))
        before = why
        out.append(
            line(
                (padded(safe(name), names) + "  ", "$ink-muted"),
                padded(safe(value), values) + "  ",
                (told, "$ink-muted"),
            )
        )
    return out


def _by_change(found: Sequence[tuple[str, str, str]], width: int) -> list[Content]:
    """The values under the change that gave them: when and why once, in full."""
    out = []
    names = min(max((len(name) for name, _, _ in found), default=0), 18)
    for told in dict.fromkeys(why for _, _, why in found):
        out.append(line(""))
        out += [line((each, "$ink-muted")) for each in wrap(safe(told), width, 3)]
        for name, value, why in found:
            if why == told:
                text = shortened(safe(value), max(width - names - 4, 10))
                out.append(line((f"  {padded(safe(name), names)}  ", "$ink-muted"), text))
    return out


def _because(step: "Step | None") -> str:
    if step is None:
        return "edited by hand, not in the history yet"
    return f"{step.entry.when:%Y-%m-%d}  {step.entry.reason or step.entry.subject}"


# the bag as a whole


def rungs(clubs: "Iterable[ClubView]", carries: "Mapping[str, Carry]") -> list[Rung]:
    """The clubs with a loft, lowest first, each with its tested carry where there is one."""
    out = []
    for each in clubs:
        if each.loft_deg is not None and each.club.of_kind != "putter":
            carry = carries.get(each.club.address)
            carry_yd, stale = (carry.mean_yd, carry.stale) if carry else (None, False)
            out.append(Rung(each.club.address, each.loft_deg, each.club.carried, carry_yd, stale))
    return sorted(out, key=lambda each: each.loft_deg)


def remark_lines(
    player: str, picture: "BagOverview", choices: "Iterable[Choice]", remarks: "Remarks | None", width: int
) -> list[Content]:
    """What to look at, weightiest first; the rules that were not checked in one row."""
    listed = remarks.listed if remarks else ()
    out = [row for each in picture.trouble for row in bullet("!", "$ink-bad", each, "$ink-bad", width)]
    for choice in choices:
        out += bullet("≠", "bold $ink-warn", f"changed in two places (! chooses): {choice.said}", "", width)
    for each in listed:
        if each.weighty:
            out += bullet("!", "bold $ink-warn", each.text, "", width)
    for makeup in picture.bag.makeup:
        out += bullet("·", "$ink-muted", f"make-up {makeup.name}: {', '.join(makeup.clubs)}", "", width)
    for each in listed:
        if not each.weighty:
            out += bullet("·", "$ink-muted", each.text, "$ink-muted", width)
    if remarks and remarks.unchecked_rules:
        out += _unchecked_lines(player, remarks.unchecked_rules, width)
    return out or [line(("nothing to check", "$ink-muted"))]


def _unchecked_lines(player: str, rules: str, width: int) -> list[Content]:
    told = shortened(f"not checked for want of data: {rules}", max(width - 2, 20))
    where = f"fitlog findings {safe(player)} lists all of it"
    return [line((f"· {told}", "$ink-muted")), *bullet(" ", "", where, "$ink-muted", width)]
