"""What a shot file gives through a map: first shots, last rows, columns."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.content import Content

from fitlog.records.models.session import MEASURES
from fitlog.records.wording.plurals import format_count
from fitlog.tui.session.files.column_map import describe_groups
from fitlog.tui.text.numbers import head_of, quantity
from fitlog.tui.text.sanitize import safe
from fitlog.tui.text.units import Units
from fitlog.tui.widgets.scroll_text import bullet, line

if TYPE_CHECKING:
    from fitlog.views.session.shot_file import Intake, Preview

WIDTH = 74
_FIRST, _LEAST = 2, 6


def describe_count(intake: "Intake") -> Content:
    """How much comes in, and how many lines do not."""
    skipped = format_count(len(intake.skipped), "line")
    return line((describe_groups(intake.groups, len(intake.unreadable)), "bold"), f"; {skipped} skipped")


def trouble_lines(intake: "Intake") -> list[Content]:
    """What cannot be read, and which columns of the map are missing."""
    out = [row for each in intake.unreadable for row in bullet("!", "$ink-warn", str(each), "", WIDTH)]
    if intake.absent:
        out += bullet("!", "$ink-warn", "not in the file: " + ", ".join(intake.absent), "", WIDTH)
    return out


def shot_lines(intake: "Intake", units: Units) -> list[Content]:
    """The first shots of each group, under the names of what they are."""
    first = [shot for shots in intake.groups.values() for shot in shots[:_FIRST]]
    keys = [key for key in MEASURES if any(key in shot for shot in first)]
    heads = [f"{head_of(key, units):>{_LEAST}}" for key in keys]
    while sum(cell_len(each) + 2 for each in heads) > WIDTH:
        heads.pop()
    out = [line(("  ".join(heads), "$ink-muted"))]
    for name, shots in intake.groups.items():
        out += [line((safe(name), "bold"))] if name else []
        for shot in shots[:_FIRST]:
            cells = zip((units.text(key, shot.get(key)) for key in keys), heads, strict=False)
            out.append(line("  ".join(f"{cell:>{cell_len(head)}}" for cell, head in cells)))
    return out


def last_lines(last: Sequence[tuple[str, str]]) -> list[Content]:
    """The last rows of a file, each taken or not; a summary stands there."""
    out = [line(("the last rows of the file:", "$ink-muted"))] if last else []
    for text, why in last:
        mark, style = ("-", "$ink-warn") if why else ("+", "$ink-good")
        out += bullet(mark, style, f"{text}   skipped: {why}" if why else text, "", WIDTH)
    return out


def column_lines(preview: "Preview") -> list[Content]:
    """What the map makes of each column, and the columns that it leaves."""
    taken = [
        f"{each.header} → {quantity(each.column.key)}" + (f" in {each.column.unit}" if each.column.unit else "")
        for each in preview.columns
        if each.column
    ]
    left = [
        f"{each.header} ({', '.join(each.samples)})" if each.samples else each.header
        for each in preview.columns
        if each.column is None and not each.splits
    ]
    return [
        row
        for name, texts in (("taken:", taken), ("left:", left))
        if texts
        for row in bullet(name, "$ink-muted", "; ".join(texts), "", WIDTH)
    ]
