"""The chosen club's values, each with since when and why."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.content import Content

from fitlog.records.models.bag import PROVEN
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.words import describe_evidence, describe_setup, format_label, format_value
from fitlog.tui.text.sanitize import fit_cells, safe, shorten, wrap
from fitlog.tui.widgets.scroll_text import heading, line

if TYPE_CHECKING:
    from fitlog.views.bag.overview import ClubView
    from fitlog.views.history.why import Step

_NOT_VALUES = ("slot", "id", "evidence", "standing", "since", "carried")
_ORIGIN_WORDS = {"measured": "measured on the bench", "computed": "computed from the components"}


def value_lines(
    view: "ClubView", origins: "Mapping[str, Step] | None", units: DisplayUnits, width: int, wide: bool
) -> list[Content]:
    club = view.club
    standing = "● proven" if club.standing == PROVEN else "○ trial"
    since = f" since {club.since}" if club.since else ""
    carried = "" if club.carried else ", at hand, not carried"
    rests = (("rests on ", "$ink-muted"), safe(describe_evidence(club.evidence).removeprefix("rests on ")))
    fits = sum(map(cell_len, (standing, since, carried, rests[0][0], rests[1]))) + 2 <= width
    beside, below = ((("  ", ""), *rests), []) if fits else ((), [line(*rests)])
    described = describe_setup(club.raw, units)
    first, *more = wrap(safe(described), max(width - cell_len(club.address) - 2, 10))
    out = [
        heading(safe(club.address), first),
        *(line(" " * (cell_len(club.address) + 2), each) for each in more),
        line((standing, "$ink-good" if club.standing == PROVEN else "$ink-accent"), f"{since}{carried}", *beside),
        *below,
    ]
    weight = view.swing_weight
    found = [("swing weight", weight.text, _ORIGIN_WORDS.get(weight.origin, weight.origin))] if weight.text else []
    for each in view.from_head:
        of = f"of the head, {each.source}" if each.source else "of the head"
        found.append((format_label(each.key), format_value(each.key, each.value), of))
    for key, value in flatten(club.raw):
        if key not in _NOT_VALUES:
            step = (origins or {}).get(key)
            why = "…" if origins is None else _because(step)
            found.append((format_label(key), format_value(key, value, units=units), why))
    return out + (_by_change(found, width) if wide else _in_rows(found, width))


def _in_rows(cells: Sequence[tuple[str, str, str]], width: int) -> list[Content]:
    """Name, value, since when and why, a row each; a ditto mark repeats a change."""
    names = min(max((len(name) for name, _, _ in cells), default=0), 21)
    values = min(max((cell_len(value) for _, value, _ in cells), default=0), 20)
    out = []
    before = ""
    for name, value, why in cells:
        origin = "″" if why == before else shorten(safe(why), max(width - names - values - 4, 10))
        before = why
        out.append(
            line(
                (fit_cells(safe(name), names) + "  ", "$ink-muted"),
                fit_cells(safe(value), values) + "  ",
                (origin, "$ink-muted"),
            )
        )
    return out


def _by_change(values: Sequence[tuple[str, str, str]], width: int) -> list[Content]:
    """The values under the change that gave them: when and why once, in full."""
    out = []
    names = min(max((len(name) for name, _, _ in values), default=0), width // 2)
    for reason in dict.fromkeys(why for _, _, why in values):
        out.append(line(""))
        out += [line((each, "$ink-muted")) for each in wrap(safe(reason), width, 3)]
        for name, value, why in values:
            if why == reason:
                text = shorten(safe(value), max(width - names - 4, 10))
                out.append(line((f"  {fit_cells(safe(name), names)}  ", "$ink-muted"), text))
    return out


def _because(step: "Step | None") -> str:
    if step is None:
        return "edited by hand, not in the history yet"
    return f"{step.entry.when:%Y-%m-%d}  {step.entry.reason or step.entry.subject}"
