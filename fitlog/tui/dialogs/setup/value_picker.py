"""Values chosen one by one: find one, type it or pick a part; then Enter."""

import json
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static

from fitlog.actions.values import Relative, Values, resolve_values, typed_value
from fitlog.records.errors import FitlogError
from fitlog.records.wording.words import Change, format_change, format_label, format_value, is_number
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.list_dialog import ListDialog
from fitlog.tui.dialogs.setup.stock_rows import SHELF_COLUMNS, stock_rows
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.paragraph import Paragraph
from fitlog.tui.widgets.rows import Column, Row
from fitlog.tui.widgets.scroll_text import Piece, line
from fitlog.views.bench.components import InStock, component_of, in_stock, of_old_part, swap_component

_READY, _KEEP = " ready", " keep"
_FIND, _VALUE, _REASON = "find", "value", "reason"
_COLUMNS = (Column("value", 16, grow=1), Column("now", 20, grow=2), Column("new", 14, grow=2))


class ValuePicker(ListDialog[str]):
    """The steps; a subclass says whose values they are and what to do.

    What is chosen is kept at every key, under the name of ``about``, until it is saved.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+t", "take_back", show=False, priority=True),
    ]
    asks = "find"
    hint = ""
    columns: ClassVar[Sequence[Column]] = _COLUMNS
    ready = "save"
    ready_unchanged = ""  # what can be done while nothing differs; empty for nothing
    unchanged_note = ""
    needs_reason = False
    no_such_value = "no value of this name"

    def __init__(self, player: str, about: str) -> None:
        super().__init__()
        self.player, self.about = player, about
        self.base: Mapping[str, Any] = {}
        self.values: Values = {}
        self.stock: Mapping[str, Sequence[InStock]] = {}
        self._clears = False  # what the hint says of Esc
        self.step = _FIND
        self.key = ""
        self.read_it = False
        self.follows: Sequence[str] = ()  # what follows from what is chosen, a line each

    def middle(self) -> Iterable[Widget]:
        yield Paragraph("", classes="says", id="so-far")
        yield self.list_rows(self.columns, self.no_such_value)

    def on_mount(self) -> None:
        # Textual calls the on_mount of every class of the family: a subclass overrides begin instead
        self.ask(in_stock, self._know_stock, self.trouble)
        self.begin()

    def begin(self) -> None:
        """The first step."""
        self.read_base()
        self.recall()

    # what a subclass says

    def read(self, desk: Desk) -> Any:
        """What ``know`` takes; here the values as they are now, by dotted key."""
        raise NotImplementedError

    def keys_to_ask(self) -> Sequence[str]:
        """The keys that are asked for, before any others there are."""
        raise NotImplementedError

    def finish(self, reason: str, /) -> None:
        """All is said."""

    def starts(self) -> str:
        """What it is like, before what differs."""
        return ""

    def more_hint(self) -> str:
        """What else can be done while finding."""
        return ""

    def explain(self, _key: str, /) -> str:
        """What helps to type this value, after all else that is said of it."""
        return ""

    def label(self, key: str) -> str:
        """What a value is called."""
        return format_label(key)

    def format_value(self, key: str, value: Any) -> str:
        """A value in words."""
        return format_value(key, value)

    def typed_value(self, key: str, text: str) -> Any:
        """What was typed, as the files hold it. Raises Refusal where it does not fit."""
        return typed_value(key, text)

    # what is kept while it is not saved

    def draft_name(self) -> str:
        """The draft's name."""
        return f"{type(self).__name__} {self.player} {self.about}"

    def keep(self) -> None:
        """Keep what is chosen, and the value that is being typed."""
        typing = {"key": self.key, "text": self.line.value} if self.step == _VALUE else {}
        kept = {"values": self.values, **typing} if self.values or typing.get("text") else {}
        self.services.keep_draft(self.draft_name(), json.dumps(kept, default=str) if kept else "")

    def recall(self) -> None:
        """Go on where it was left."""
        try:
            kept = json.loads(self.services.draft(self.draft_name()) or "{}")
            self.values, key, text = dict(kept.get("values", {})), str(kept.get("key", "")), str(kept.get("text", ""))
        except (ValueError, TypeError, AttributeError):  # a draft cut short by a pulled plug
            self.values, key, text = {}, "", ""
        self.to_find()
        if key and text:
            self.go_on(key)
            self.line.value = text
            self.line.cursor_position = len(text)

    def close_with(self, saved: SaveResult, result: str) -> None:
        self.services.keep_draft(self.draft_name(), "")
        super().close_with(saved, result)

    def action_leave(self) -> None:
        """A step back; from the whole list, out of it. What is chosen is kept."""
        if self.busy:
            return
        if self.step in (_VALUE, _REASON) or (self.is_finding and self.line.value):
            self.trouble("")
            self.purpose = ""
            self.to_find()
            return
        self.dismiss(None)
        if self.values:
            self.services.show_notice("not saved; what was chosen is kept for the next time", "note")

    def action_take_back(self) -> None:
        """Take back the value chosen last."""
        if self.is_finding and self.values:
            self.values.popitem()
            self.to_find()

    def read_base(self) -> None:
        """Read the values that are started from."""
        self.ask(self.read, self.know, self.trouble)

    @property
    def is_finding(self) -> bool:
        """Whether a value is being looked for."""
        return self.step == _FIND

    def _know_stock(self, stock: Mapping[str, Sequence[InStock]]) -> None:
        self.stock = stock
        self._came()

    def _came(self) -> None:
        """Show what is asked to whoever typed while it was being read."""
        if self.step == _VALUE:
            self._hint_at_value()
        self._show()

    def know(self, loaded: Any) -> None:
        """What was read."""
        self.base = loaded
        self.read_it = True
        self.values = {key: value for key, value in self.values.items() if value != self.base.get(key)}
        self._came()

    # steps

    def to_find(self) -> None:
        self.step = _FIND
        self.ask_for("find")
        self._hint_at_finding()
        self._show()
        self.keep()
        self.look_ahead()

    def _hint_at_finding(self) -> None:
        back = "    ^t takes back" if self.values else ""
        self._clears = bool(self.line.value)
        way_out = "esc clears" if self._clears else "esc leaves"
        self.hint_at("type to find, ↑ ↓ choose, ⏎ takes it" + self.more_hint() + back + f"    {way_out}")

    def look_ahead(self) -> None:
        """Work out what follows from what is chosen."""

    def input_changed(self, _: str, /) -> None:
        if self.step == _FIND or self._shelf:
            self._show()
        if self.step == _FIND and self._clears != bool(self.line.value):
            self._hint_at_finding()
        if self.step == _VALUE:
            self.keep()

    @property
    def _shelf(self) -> Sequence[InStock]:
        """The parts in stock, where a component is asked for."""
        return self.stock.get(component_of(self.key), ()) if self.step == _VALUE else ()

    def submit(self, text: str, /) -> None:
        if self.step == _FIND or self._shelf:
            self.take(self.rows.key)
        elif self.step == _VALUE:
            self._set(text)
        else:
            self.finish(text)

    def take(self, row: str, /) -> None:
        if self.step == _FIND:
            value = self.name_and_value()[1]
            self.go_on(row)
            if value and self.step == _VALUE:
                self._type_ahead(value)
        elif self._shelf:
            self._choose(self.line.value, row)

    def go_on(self, key: str) -> None:
        """Go on with the value of this key: type it, or finish."""
        if key == _READY:
            if self.needs_reason:
                self.step = _REASON
                self.purpose = f"change {self.player} {self.about}"
                self.ask_for("reason", self.services.draft(self.purpose))
                self.hint_at("⏎ saves it    ↑ a reason used before    esc leaves; the reason is kept")
            else:
                self.finish("")
        elif key:
            self.key, self.step = key, _VALUE
            self.ask_for(self.label(key))
            self._hint_at_value()
            self._show()

    def _type_ahead(self, text: str) -> None:
        """Take what was typed behind the name; a component is still chosen from stock."""
        self.line.value = text
        self.line.cursor_position = len(text)
        if not self._shelf:
            self._set(text)

    def name_and_value(self) -> tuple[str, str]:
        """The name that is looked for, and a value that was typed behind it.

        Here all is the name.
        """
        return self.search_text, ""

    def find_keys(self, words: str) -> list[str]:
        """The keys whose names have this, the ones that begin with it first."""
        keys = dict.fromkeys([*self.keys_to_ask(), *self.base])
        found = [key for key in keys if words in self.label(key).casefold() or words in key]
        return sorted(found, key=lambda key: bool(words) and not self.label(key).startswith(words))

    def _hint_at_value(self) -> None:
        now = self.format_value(self.key, self.values.get(self.key, self.base.get(self.key))) if self.read_it else "…"
        more = "; ↑ ↓ choose from stock" if self._shelf else "; - removes it"
        step = ", or a step such as +1/2" if is_number(self.key) else ""
        self.hint_at(f"now {safe(now)}; type the new value{step}, ⏎ takes it{more}{self.explain(self.key)}")

    def _choose(self, text: str, row: str) -> None:
        """Another component: the part in stock that the cursor is on, or what is typed."""
        if row == _KEEP:  # Enter alone changes nothing
            self.to_find()
            return
        part = next((each for each in self._shelf if each.part == row), None)
        component = component_of(self.key)
        if part is None and not text.strip():
            self.trouble("nothing is chosen; type a name, or choose a part in stock with ↑ ↓")
            return
        swap = swap_component(self.base, component, part or text.strip())
        self.values = {key: value for key, value in self.values.items() if not of_old_part(key, component)}
        self.values |= {key: value for key, value in swap.items() if value != self.base.get(key)}
        self.to_find()

    def _set(self, text: str) -> None:
        if not text.strip():  # Enter alone blanks nothing
            self.to_find()
            return
        try:
            value = None if text.strip() in ("-", "–") else self.typed_value(self.key, text.strip())
            if isinstance(value, Relative):
                value = resolve_values({self.key: value}, {**self.base, **self.values})[self.key]
        except FitlogError as error:
            self.trouble(str(error))
            return
        if value == self.base.get(self.key):
            self.values.pop(self.key, None)
        else:
            self.values[self.key] = value
        self.to_find()
        if self.key not in self.values and self.read_it:
            self.hint_at(
                f"{self.label(self.key)} is {safe(self.format_value(self.key, value))} as it is    esc leaves"
            )

    def _show(self) -> None:
        text = "; ".join(self.differs(key, value) for key, value in self.values.items())
        start = self.starts()
        nothing = ("…", "bold") if start else ("nothing is changed yet", "$ink-muted")
        pieces: list[Piece] = [(start, "$ink-muted"), (safe(text), "bold") if text else nothing]
        pieces += [("\n" + safe(each), "$ink-muted") for each in self.follows if self.values]
        self.query_one("#so-far", Static).update(line(*pieces))
        rows = self.rows
        if self._shelf:
            rows.show([*self._keep_row(), *stock_rows(self._shelf, self.line.value)], SHELF_COLUMNS)
            rows.cursor = 0
            return
        before = rows.key
        rows.show(list(self._rows()), self.columns)
        if self.step == _VALUE:
            rows.go(self.key)
        elif self.values and not self.line.value:
            rows.go(_READY)
        elif self.line.value:
            rows.cursor = 0
        elif not before:  # on the first value: what can be done without a change is one key up
            rows.go(next((row.key for row in rows.rows if row.key != _READY), ""))

    def _keep_row(self) -> Iterable[Row]:
        """The component as it is, where nothing is typed yet."""
        now = self.values.get(self.key, self.base.get(self.key))
        if now and not self.line.value.strip():
            yield Row(_KEEP, [safe(str(now)), ("as it is", "muted"), ""])

    def differs(self, key: str, value: Any) -> str:
        """What a value changes, in words."""
        if self.read_it and not self.base:
            return f"{self.label(key)} {self.format_value(key, value)}"
        return format_change(Change(key, self.base.get(key), value))

    def _rows(self) -> Iterable[Row]:
        wanted = self.name_and_value()[0] if self.step == _FIND else ""
        ready = self.ready if self.values else self.ready_unchanged if self.read_it else ""
        if ready and not wanted:
            yield Row(_READY, [(f"▸ {ready}", "good"), "" if self.values else (self.unchanged_note, "muted"), ""])
        for key in self.find_keys(wanted):
            new = ("→ " + safe(self.format_value(key, self.values[key])), "accent") if key in self.values else ""
            yield Row(key, [self.label(key), (safe(self.format_value(key, self.base.get(key))), "muted"), new])
