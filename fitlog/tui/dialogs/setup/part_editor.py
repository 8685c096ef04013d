"""The values of one part in stock: its own, number, weights, positions."""

from collections.abc import Iterable, Sequence
from typing import Any

from fitlog.actions.values import UNSET, typed_value
from fitlog.coherence.club.complete import SHELF_OF
from fitlog.coherence.club.consequences import DONE_TO_CLUB
from fitlog.records.entry.weights import format_weights
from fitlog.records.errors import Refusal
from fitlog.records.models.part import SHELVES, Setting, Stock
from fitlog.records.models.session import Session
from fitlog.records.schema.fields import Items, Sub, kinds_of
from fitlog.records.schema.keyed_rows import flatten_rows, row_key
from fitlog.records.wording.words import row_label
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.setup.value_picker import ValuePicker
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Row
from fitlog.views.bench.components import InStock

COMPONENTS = {**SHELF_OF, "ball": "balls"}
_ADD_POSITION = "+ a sleeve position"


class PartEditor(ValuePicker):
    """The values of one part, or of a new one."""

    def __init__(self, component: str, part: str) -> None:
        super().__init__("", f"{component}/{part}")
        self.component, self.part = component, part
        self.title_text = f"The {component} {safe(part)} in stock" if part else f"A {component} for the stock"
        self.needs_reason = bool(part)
        self.ready = "save, with a reason" if part else "save the part"
        self.positions: list[str] = []  # named here and not saved yet

    @property
    def _shelf(self) -> Sequence[InStock]:
        """A part's model is typed, not taken from another part."""
        return ()

    def read(self, desk: Desk) -> Any:
        """The part's values as they are; those of its component under its name."""
        if not self.part:
            return {}
        raw = dict(flatten_rows(desk.workspace.part(COMPONENTS[self.component], self.part).raw))
        names = {self._key(name): name for name in self.keys_to_ask()}
        return {names.get(key, key): value for key, value in raw.items() if key in names or row_key(key)}

    def keys_to_ask(self) -> Sequence[str]:
        own = kinds_of(SHELVES[COMPONENTS[self.component]])
        names = [
            f"{self.component}.{key}"
            for key, kind in own.items()
            if key not in ("part", *DONE_TO_CLUB) and not isinstance(kind, Items | Sub)
        ]
        more = [key for key, kind in kinds_of(Stock).items() if key not in own and not isinstance(kind, Items | Sub)]
        if self.component != "head":
            return names + more
        known = [row.name for key in (*self.base, *self.values) if (row := row_key(key))]
        positions = dict.fromkeys([*known, *self.positions])
        rows = [f"setting.{each}.{key}" for each in positions for key in Setting._fields if key != "position"]
        return [*names, *more, "weights", *rows]

    def _rows(self) -> Iterable[Row]:
        yield from super()._rows()
        if self.component == "head" and self.is_finding and self.search_text in _ADD_POSITION:
            yield Row(_ADD_POSITION, [(_ADD_POSITION, "accent"), "", ""])

    def _set(self, text: str) -> None:
        if self.key != _ADD_POSITION or not text.strip():
            super()._set(text)
            return
        self.positions.append(text.strip())
        self.to_find()
        self.ask_for("find", f"position {text.strip()}")

    def _key(self, name: str) -> str:
        return name.removeprefix(f"{self.component}.")

    def label(self, key: str) -> str:
        if key == _ADD_POSITION:
            return "sleeve position, as it is written"
        if label := row_label(key):
            return safe(label)
        return super().label(key) if "." in key else kinds_of(Stock)[key].label

    def format_value(self, key: str, value: Any) -> str:
        if key == "weights" and value:
            return format_weights(value, self.services.units)
        return super().format_value(key, value)

    def explain(self, key: str, /) -> str:
        return "; such as back 8, lead 3@40" if key == "weights" else ""

    def typed_value(self, key: str, text: str) -> Any:
        if key == _ADD_POSITION:
            raise Refusal("a position needs a name", do="write it as it stands on the sleeve")
        text = self.services.units.with_display_unit(key, text)
        if "." not in key or row_key(key):
            return typed_value(key, text, Stock, self.base.get(key, UNSET) if row_key(key) else None)
        return typed_value(key, text, Session) if self.component == "ball" else super().typed_value(key, text)

    def finish(self, reason: str, /) -> None:
        values = {self._key(name): value for name, value in self.values.items()}
        shelf = COMPONENTS[self.component]

        def work(desk: Desk) -> SaveResult:
            from fitlog.actions.parts import add_part, change_part

            return change_part(desk, shelf, self.part, values, reason) if self.part else add_part(desk, shelf, values)

        self.do(work, lambda done: self.close_with(done, self.about))
