"""What to look at in a bag, what matters first."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.content import Content

from fitlog.records.wording.words import without_ids
from fitlog.tui.widgets.scroll_text import bullet, line

if TYPE_CHECKING:
    from fitlog.saving.conflicts import Choice
    from fitlog.views.bag.overview import BagOverview, Remarks


def remark_lines(
    picture: "BagOverview", choices: "Iterable[Choice]", remarks: "Remarks | None", width: int
) -> list[Content]:
    """What to look at, weightiest first; unchecked rules in one at the end."""
    listed = remarks.listed if remarks else ()
    out = [row for each in picture.trouble for row in bullet("!", "$ink-bad", each, "$ink-bad", width)]
    for choice in choices:
        out += bullet("≠", "bold $ink-warn", f"changed in two places (! chooses): {choice.text}", "", width)
    for each in listed:
        if each.weighty:
            out += bullet("!", "bold $ink-warn", without_ids(each.text), "", width)
    for makeup in picture.bag.makeup:
        out += bullet("·", "$ink-muted", f"make-up {makeup.name}: {', '.join(makeup.clubs)}", "", width)
    for each in listed:
        if not each.weighty:
            out += bullet("·", "$ink-muted", without_ids(each.text), "$ink-muted", width)
    if remarks and remarks.unchecked_rules:
        rules = f"rules not checked, values not known: {remarks.unchecked_rules}"
        out += bullet("·", "$ink-muted", rules, "$ink-muted", width)
    return out or [line(("nothing to check", "$ink-muted"))]
