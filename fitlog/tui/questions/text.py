"""A player's open questions, searches and predictions in lines."""

from typing import TYPE_CHECKING, NamedTuple

from textual.content import Content

from fitlog.records.plurals import format_count
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.scroll_text import bullet, heading, line

if TYPE_CHECKING:
    from fitlog.views.history.which_change import Search
    from fitlog.views.prediction.outcomes import PredictionRecord
    from fitlog.views.verdict.worth import Question

ABOUT = (
    "Above: each open question, the one that ten more balls settle most surely first.",
    "Then the searches for the change to blame that run: how likely each change is, and what to hit next. |"
    " begins one, here or on the bag's club: when it was good, and what was lost since.",
    "Below: how often the bands held that were written down before the shots. | marks where a bar should end.",
)
_BAR = 30


class Questions(NamedTuple):
    """What the page shows; ``records`` of predictions and of guesses."""

    name: str
    open: "tuple[Question, ...]"
    searches: "tuple[Search, ...]"
    records: "tuple[PredictionRecord, ...]"


def question_lines(found: Questions, width: int) -> list[Content]:
    """All of it, wrapped to so many cells."""
    out = [heading("worth hitting next", "by the chance that ten more balls tell")]
    for each in found.open:
        chance = f"{each.chance.told:>4.0%}" if each.chance else "   –"
        out += bullet(chance, "bold $ink-accent" if each.chance else "$ink-muted", each.sentence, "", width)
    if not found.open:
        out.append(line(("nothing is open", "$ink-muted")))
    for search in found.searches:
        out += [line(""), heading(f"which change of {safe(search.record.slot)} did it", safe(search.id))]
        for said in search.sentences:
            out += bullet("·", "$ink-accent", said, "", width)
    if not found.searches:
        out += [line(""), heading("which change did it", "| begins a search of a club")]
    out += [line(""), heading("was I right", "80 % bands, written down before the first shot")]
    for record in found.records:
        out += _record_lines(record)
    return out


def _record_lines(of: "PredictionRecord") -> list[Content]:
    name = "predictions" if of.who == "predicted" else "guesses"
    if not of.n:
        return [line((f"{name}: no outcome yet", "$ink-muted"))]
    out = [line((f"{name}: {format_count(of.n, 'outcome')}", "bold"))]
    for each in of.picture:
        said = f" {each.share:.0%} held, 95 % interval {each.low:.0%} to {each.high:.0%}"
        out.append(line((f"{each.stated:>5.0%} bands ", "$ink-muted"), _bar(each.share, each.stated), said))
    return out


def _bar(share: float, stated: float) -> str:
    filled, mark = round(share * _BAR), min(round(stated * _BAR), _BAR - 1)
    return "".join("|" if place == mark else "━" if place < filled else "·" for place in range(_BAR))
