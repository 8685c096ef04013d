"""The parts in stock as rows to choose from."""

from collections.abc import Sequence

from fitlog.records.models.part import fitting_models
from fitlog.records.wording.words import format_value
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Column, Row
from fitlog.views.bench.components import InStock

SHELF_COLUMNS = (Column("in stock", 16, grow=1), Column("", 20, grow=2), Column("part", 14, grow=1))
_AS_TYPED = " typed"
_KEYS = ("loft_deg", "flex", "mass_g", "raw_length_in", "size", "year")


def stock_rows(shelf: Sequence[InStock], text: str) -> list[Row]:
    """The parts whose name holds what is typed; last, what is typed as it is."""
    typed = text.strip()
    wanted = typed.casefold()
    fitting = fitting_models(typed, {each.part: each.model for each in shelf})
    found = [each for each in shelf if not typed or each.part in fitting or wanted in each.part]
    rows = [Row(each.part, [safe(each.model), (_describe(each), "muted"), safe(each.part)]) for each in found]
    exact = any(wanted in (each.model.casefold(), each.part) for each in found)
    if typed and not exact:  # last: Enter on what fits never erases what a part says
        rows.append(Row(_AS_TYPED, [safe(typed), ("as typed", "muted"), ""]))
    return rows


def _describe(part: InStock) -> str:
    """What tells a part from another of its model: ``X, 77 g``."""
    values = {key.partition(".")[2]: (key, value) for key, value in part.values.items()}
    return safe(", ".join(format_value(*values[name]) for name in _KEYS if name in values))
