"""What a test must show: a quantity, the kind of limit, the number."""

import json
from collections.abc import Iterable, Mapping
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from fitlog.evidence.criteria.criterion import criterion
from fitlog.records.errors import FitlogError
from fitlog.records.models.session import LIMITS, MEASURES, SHARE_LIMITS, Criterion
from fitlog.records.schema.fields import kinds_of
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.list_dialog import ListDialog
from fitlog.tui.text.numbers import quantity
from fitlog.tui.text.sanitize import safe
from fitlog.tui.text.typed_quantities import split_name
from fitlog.tui.widgets.rows import Column, Row

_LIST, _QUANTITY, _LIMIT, _NUMBER, _REASON = "choose", "quantity", "limit", "number", "reason"
_SAVE, _ADD = " save", " add"
_WORDS = {
    "at_least": "at least", "at_most": "at most", "within": "within, on either side", "spread_at_most":
    "a spread of at most", "gain_at_least": "more than the reference, at least", "gain_at_most":
    "more than the reference, at most", "same_within": "the same as the reference, within",
    "shots_at_least": "a share of the shots at least", "shots_at_most": "a share of the shots at most",
    "shots_within": "a share of the shots within, on either side",
}  # fmt: skip
CriterionTable = dict[str, Any]


def _find_quantities(words: str) -> list[str]:
    """The quantities whose names have this, the ones that begin with it first."""
    found = [key for key in MEASURES if words in quantity(key)]
    return sorted(found, key=lambda key: bool(words) and not quantity(key).startswith(words))


def _find_limits(words: str) -> list[str]:
    """The limits that have all these words.

    The words are those shown here or in a file's fault.
    """
    kinds = kinds_of(Criterion)
    return [key for key in LIMITS if all(word in f"{_WORDS[key]} {kinds[key].label}" for word in words.split())]


_FIND = {_QUANTITY: _find_quantities, _LIMIT: _find_limits}


class CriteriaDialog(ListDialog[bool]):
    """The criteria; Delete takes one out, Ctrl+T the last one back.

    Its draft is kept at every step until it is saved.
    """

    asks = _LIST
    always_why = ""  # the hint where a reason is asked for though no shot was hit
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+t", "take_back", show=False, priority=True),
        Binding("delete", "take_out", show=False, priority=True),
    ]

    def __init__(self, player: str, where: str, name: str, now: Iterable[Mapping[str, Any]], shots: int) -> None:
        super().__init__()
        self.player, self.where, self.shots = player, where, shots
        self.title_text = f"What {name} must show"
        self.now = [_plain(each) for each in now]
        self.criteria = list(self.now)
        self.step = _LIST
        self.metric = self.limit = ""

    def middle(self) -> Iterable[Widget]:
        yield self.list_rows((Column("", 30, grow=1), Column("", 16, grow=1)), head=False)

    def on_mount(self) -> None:
        try:
            kept = json.loads(self.services.draft(self._draft_name()) or "null")
            if kept is not None:
                self.criteria = [dict(each) for each in kept]
                self._format_criteria(self.criteria)
        except (ValueError, TypeError, FitlogError):  # a draft cut short by a pulled plug
            self.criteria = list(self.now)
        self._to(_LIST)

    # what is kept while it is not saved

    def _draft_name(self) -> str:
        return f"must show {self.player} {self.where}"

    @property
    def _half_written(self) -> str:
        return f"criterion {self.player} {self.where}"

    def _keep(self) -> None:
        self.services.keep_draft(self._draft_name(), json.dumps(self.criteria) if self.criteria != self.now else "")

    def _format_criteria(self, rows: Iterable[CriterionTable]) -> list[str]:
        return [safe(criterion(each).format(self.services.units)) for each in rows]

    # steps

    def _to(self, step: str, text: str = "") -> None:
        self.step = step
        name, unit = (quantity(self.metric), self.services.units.symbol(self.metric)) if self.metric else ("", "")
        kept_lines = {_REASON: f"why criteria {self.player} {self.where}", _LIST: self._half_written}
        self.purpose = kept_lines.get(step, "")
        asks = {
            _LIST: "choose",
            _QUANTITY: "which quantity",
            _LIMIT: name,
            _NUMBER: f"{name} {_WORDS.get(self.limit, '')}, {unit}".rstrip(", "),
            _REASON: "reason",
        }
        self.ask_for(asks[step], self.services.draft(self.purpose) if self.purpose else text)
        hints = {
            _LIST: "↑ ↓ choose, ⏎ adds or saves; or type one: carry at least 140; del removes one    esc leaves",
            _NUMBER: "type the number (with a share of the shots: two, such as -15 0.95), ⏎ takes it    esc back",
            _REASON: self.always_why or "shots were hit already: say why it changes now; ⏎ saves it    esc back",
        }
        self.hint_at(hints.get(step, "type to find, ↑ ↓ choose, ⏎ takes it    esc back"))
        self._show()
        rows = self.rows
        rows.display = step not in (_NUMBER, _REASON)
        rows.cursor = 0

    def _rows(self, words: str) -> Iterable[Row]:
        if self.step == _LIST:
            if self.criteria != self.now:
                yield Row(_SAVE, [("▸ save what it must show", "good"), ""])
            yield Row(_ADD, [("+ a criterion", "accent"), "" if self.criteria else ("none yet", "muted")])
            for place, text in enumerate(self._format_criteria(self.criteria)):
                new = "" if self.criteria[place] in self.now else ("new", "accent")
                yield Row(str(place), [text, new])
        elif self.step == _QUANTITY:
            for key in _find_quantities(self._find_name(words)):
                yield Row(key, [quantity(key), (self.services.units.symbol(key), "muted")])
        elif self.step == _LIMIT:
            for key in _find_limits(self._find_name(words)):
                yield Row(key, [_WORDS[key], ""])

    def _find_name(self, words: str) -> str:
        """What is looked for, without what is typed behind its name."""
        return split_name(words, _FIND[self.step])[0] or words

    def _show(self) -> None:
        self.rows.show(list(self._rows(self.search_text)))

    def input_changed(self, _: str, /) -> None:
        if self.step in (_QUANTITY, _LIMIT):
            self._show()
            self.rows.cursor = 0

    def submit(self, text: str, /) -> None:
        if self.step == _NUMBER:
            self._put(text.strip())
        elif self.step == _REASON:
            self._save(text)
        elif text.strip() and (self.step == _LIST or split_name(text, _FIND[self.step])[1] or not self.rows.key):
            self._take_line(text)
        else:
            self.take(self.rows.key)

    def _take_line(self, text: str) -> None:
        """A criterion in one line, such as carry at least 140.

        Where a part of it is no word here, ask for that.
        """
        step = _QUANTITY if self.step == _LIST else self.step
        while step in _FIND and text:
            find = _FIND[step]
            name, rest = split_name(text, find)
            if not name:
                break
            if step == _QUANTITY:
                self.metric, step = find(name)[0], _LIMIT
            else:
                self.limit, step = find(name)[0], _NUMBER
            text = rest
        if step == _QUANTITY:
            self.trouble(f"'{text.strip()}' begins with no quantity; write one such as carry at least 140")
            return
        self.services.keep_draft(self._half_written, "")
        self._to(step, text)
        if text and step == _NUMBER:
            self._put(text)
        elif text:
            self.trouble(f"'{text.strip()}' begins with no limit; write one such as at least 140")

    def take(self, row: str, /) -> None:
        if row == _SAVE:
            if self.shots or self.always_why:
                self._to(_REASON)
            else:
                self._save("")
        elif row == _ADD:
            self._to(_QUANTITY)
        elif self.step == _LIST and row:
            self.trouble("this one is there already; del removes it, + a criterion adds another")
        elif self.step == _QUANTITY and row:
            self.metric = row
            self._to(_LIMIT)
        elif self.step == _LIMIT and row:
            self.limit = row
            self._to(_NUMBER)

    def _put(self, text: str) -> None:
        wanted = 2 if self.limit in SHARE_LIMITS else 1
        try:
            words = text.replace(",", ".").removesuffix(self.services.units.symbol(self.metric)).split()
            number, *share = map(float, words)
        except ValueError:
            self.trouble(f"'{text}' is not a number; write one such as 4 or 232.5")
            return
        if len(share) + 1 != wanted:
            self.trouble(
                "write the limit and the share of shots, such as -15 0.95" if wanted == 2 else "write one number"
            )
            return
        found = {"metric": self.metric, self.limit: self.services.units.into({self.metric: number})[self.metric]}
        found |= {"share": share[0]} if share else {}
        try:
            self._format_criteria([found])
        except FitlogError as error:
            self.trouble(str(error))
            return
        if found not in self.criteria:
            self.criteria.append(found)
        self._keep()
        self._to(_LIST)

    def _save(self, reason: str) -> None:
        given = list(self.criteria)

        def work(desk: Desk) -> SaveResult:
            return self.change(desk, given, reason)

        def then(result: SaveResult) -> None:
            self.services.keep_draft(self._draft_name(), "")
            self.close_with(result, True)

        self.do(work, then)

    def change(self, desk: Desk, criteria: list[CriterionTable], reason: str) -> SaveResult:
        """Save what is given; a family member saves it elsewhere."""
        from fitlog.actions.session.setup import set_criteria

        return set_criteria(desk, self.player, self.where, criteria, reason)

    def action_leave(self) -> None:
        """A step back; from the list, out of it. What is chosen is kept."""
        if self.busy:
            return
        self.trouble("")
        back = {_QUANTITY: _LIST, _LIMIT: _QUANTITY, _NUMBER: _LIMIT, _REASON: _LIST}
        if self.step != _LIST:
            self._to(back[self.step])
            return
        super().action_leave()
        if self.criteria != self.now:
            self.services.show_notice("not saved; what the test must show is kept for the next time", "note")

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """In a line that is typed in, Delete is the line's."""
        if action == "take_out":
            return self.step == _LIST and not self.line.value
        return super().check_action(action, parameters)

    def action_take_out(self) -> None:
        """Take out the criterion under the cursor."""
        row = self.rows.key
        if row not in ("", _SAVE, _ADD):
            del self.criteria[int(row)]
            self.trouble("")
            self._keep()
            self._to(_LIST)

    def action_take_back(self) -> None:
        """Take back the criterion that was added last."""
        if self.step == _LIST and self.criteria and self.criteria[-1] not in self.now:
            self.criteria.pop()
            self._keep()
            self._to(_LIST)


def _plain(row: Mapping[str, Any]) -> CriterionTable:
    """A criterion without what is not said in it."""
    return {key: value for key, value in row.items() if value is not None}
