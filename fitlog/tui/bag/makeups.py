"""Make-ups: new ones, other clubs for one, one removed, each with a reason."""

import json
from collections.abc import Iterable, Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static

from fitlog.coherence.checks.limits import CLUBS_CARRIED, MOST_CLUBS
from fitlog.records.models.bag import Bag, Club, MakeUp, find_clubs
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.words import describe_setup
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.list_dialog import ListDialog
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Column, Row
from fitlog.tui.widgets.scroll_text import Piece, line

_LIST, _NAME, _CLUBS, _REASON = "choose", "name", "find", "reason"
_ADD, _SAVE = " add", " save"
_BACK = {_NAME: _LIST, _CLUBS: _LIST, _REASON: _CLUBS}
_LIST_COLUMNS = (Column("make-up", 20, grow=1), Column("", 9), Column("clubs", 20, grow=2))
_CLUB_COLUMNS = (Column("in", 2), Column("club", 10, grow=1), Column("setup", 24, grow=3), Column("", 9))


class MakeUps(ListDialog[bool]):
    """The list, then the name or the clubs of one, then the reason.

    Its draft is kept at every step until it is saved.
    """

    title_text = "Make-ups: clubs for a course or a purpose"
    asks = _LIST
    BINDINGS: ClassVar[list[BindingType]] = [Binding("delete", "take_away", show=False, priority=True)]

    def __init__(self, player: str) -> None:
        super().__init__()
        self.player = player
        self.bag = Bag()
        self.step = _LIST
        self.edited_name = ""  # the make-up that is worked on
        self.clubs: list[str] = []
        self.drafts: dict[str, list[str]] = {}
        self.is_removing = False

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="so-far")
        yield self.list_rows(_LIST_COLUMNS)

    def on_mount(self) -> None:
        self._to(_LIST)
        self.ask(lambda desk: desk.workspace.bag(self.player), self._know, self.trouble)

    def _know(self, bag: Bag) -> None:
        self.bag = bag
        try:
            kept = json.loads(self.services.draft(self._draft_name()) or "{}")
            self.drafts = {str(name): [str(each) for each in clubs] for name, clubs in kept.items()}
        except (ValueError, TypeError, AttributeError):  # a draft cut short by a pulled plug
            self.drafts = {}
        self._show()

    # what is kept while it is not saved: the clubs chosen, by make-up

    def _draft_name(self) -> str:
        return f"make-up {self.player}"

    def _keep(self) -> None:
        self.drafts.pop(self.edited_name, None)
        if self._differs:
            self.drafts[self.edited_name] = list(self.clubs)
        self.services.keep_draft(self._draft_name(), json.dumps(self.drafts) if self.drafts else "")

    @property
    def _clubs_by_name(self) -> dict[str, Sequence[str]]:
        """The make-ups of the bag and those not saved yet, with their clubs."""
        return {**{each.name: each.clubs for each in self.bag.makeup}, **self.drafts}

    @property
    def _now(self) -> MakeUp | None:
        """The make-up that is worked on, as the bag has it."""
        return next((each for each in self.bag.makeup if each.name == self.edited_name), None)

    @property
    def _differs(self) -> bool:
        now = self._now
        return bool(self.edited_name) and (now is None or set(now.clubs) != set(self.clubs))

    # steps

    def _to(self, step: str) -> None:
        self.step = step
        self.purpose = {
            _NAME: f"make-up name {self.player}",
            _REASON: f"why make-up {self.player} {self.edited_name}",
        }.get(step, "")
        asks = "name, a course or a purpose" if step == _NAME else step
        self.ask_for(asks, self.services.draft(self.purpose) if self.purpose else "")
        back = "esc back; what is chosen is kept"
        self.hint_at(
            {
                _LIST: "↑ ↓ choose, ⏎ opens it    esc leaves",
                _NAME: f"⏎ goes on to its clubs    {back}",
                _CLUBS: f"⏎ in or out; the first row saves; del removes the make-up    {back}",
                _REASON: f"⏎ saves it    ↑ a reason used before    {back}",
            }[step]
        )
        rows = self.rows
        rows.display = step in (_LIST, _CLUBS)
        rows.show([])
        self._show()
        rows.cursor = 0

    def input_changed(self, _: str, /) -> None:
        if self.step in (_LIST, _CLUBS):
            self._show()
            if self.line.value:
                self.rows.cursor = 0

    def submit(self, text: str, /) -> None:
        if self.step == _NAME:
            self._start_makeup(text.strip())
        elif self.step == _REASON:
            self._save(text)
        else:
            self.take(self.rows.key)

    def take(self, row: str, /) -> None:
        if row == _ADD:
            self._to(_NAME)
        elif row == _SAVE and not self.clubs:
            self.trouble("a make-up needs a club; choose some, or remove the make-up with del")
        elif row == _SAVE:
            self.is_removing = False
            self._to(_REASON)
        elif self.step == _LIST and row:
            self.edited_name, clubs = list(self._clubs_by_name.items())[int(row)]
            self.clubs = [each for each in clubs if find_clubs(self.bag, each)]
            self._to(_CLUBS)
        elif row:
            self._turn(row)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """In a line that is typed in, Delete is the line's."""
        return self.step == _CLUBS if action == "take_away" else super().check_action(action, parameters)

    def action_take_away(self) -> None:
        """Take the make-up away, with a reason; one that was never saved needs none."""
        self.trouble("")
        if self._now:
            self.is_removing = True
            self._to(_REASON)
            return
        self.drafts.pop(self.edited_name, None)
        self.edited_name = ""
        self._keep()
        self._to(_LIST)

    def _start_makeup(self, name: str) -> None:
        if not name:
            self.trouble("a make-up needs a name; name it for its course or purpose")
        elif name in self._clubs_by_name:
            self.trouble(f"there is a make-up {name} already; esc, and choose it in the list")
        else:
            self.services.keep_draft(self.purpose, "")
            self.edited_name, self.clubs = name, [club.address for club in self.bag.carried]
            self._to(_CLUBS)
            self._keep()

    def _turn(self, address: str) -> None:
        """A club in or out; those in stand in the order of the bag."""
        self.trouble("")
        clubs = {club.address: self._name_in_makeup(club) for club in self.bag.clubs}
        if written := clubs[address]:
            self.clubs.remove(written)
        else:
            chosen = {**clubs, address: address}
            self.clubs = [each for each in chosen.values() if each]
        self._keep()
        found, self.line.value = bool(self.line.value), ""
        self._show()
        self.rows.go(_SAVE if found and self._differs else address)

    def _name_in_makeup(self, club: Club) -> str:
        """The club as the make-up names it; empty where it is not in it."""
        if club.address in self.clubs:
            return club.address
        return club.slot if club.slot in self.clubs and find_clubs(self.bag, club.slot)[0] == club else ""

    def _save(self, reason: str) -> None:
        name, clubs = self.edited_name, [] if self.is_removing else list(self.clubs)

        def work(desk: Desk) -> SaveResult:
            from fitlog.actions.bag.edit import set_makeup

            return set_makeup(desk, self.player, name, clubs, reason)

        def then(result: SaveResult) -> None:
            self.clubs, self.edited_name = [], ""
            self.drafts.pop(name, None)
            self._keep()
            self.close_with(result, True)

        self.do(work, then)

    def action_leave(self) -> None:
        """A step back; from the list, out of it. What is chosen is kept."""
        if self.busy:
            return
        self.trouble("")
        if self.step == _LIST:
            super().action_leave()
            return
        self.is_removing = False
        self._to(_BACK[self.step])

    # showing

    def _show(self) -> None:
        if self.step == _CLUBS:
            self.rows.show(self._club_rows(self.search_text), _CLUB_COLUMNS)
        elif self.step == _LIST:
            self.rows.show(self._list_rows(self.search_text), _LIST_COLUMNS)
        says = self.query_one("#so-far", Static)
        says.set_class(self.step not in (_CLUBS, _REASON), "-nothing")
        says.update(line(*self._so_far()))

    def _so_far(self) -> Sequence[Piece]:
        count = len(self.clubs)
        out: list[Piece] = [(safe(self.edited_name), "bold"), (f": {format_count(count, 'club')}", "$ink-muted")]
        if self.is_removing:
            return [(safe(self.edited_name), "bold"), (" is removed; the history keeps it", "$ink-muted")]
        if count > MOST_CLUBS:
            out.append((f", {count - MOST_CLUBS} more than the {MOST_CLUBS} of {CLUBS_CARRIED}", "bold $ink-warn"))
        return out

    def _list_rows(self, words: str) -> list[Row]:
        out = [] if words else [Row(_ADD, [("+ a make-up", "accent"), "", ""])]
        for place, (name, clubs) in enumerate(self._clubs_by_name.items()):
            if words in name.casefold():
                count = ("not saved", "warn") if name in self.drafts else format_count(len(clubs), "club")
                out.append(Row(str(place), [safe(name), count, (safe(", ".join(clubs)), "muted")]))
        return out

    def _club_rows(self, words: str) -> list[Row]:
        out = []
        if self._differs and not words:
            out.append(Row(_SAVE, ["", ("▸ save", "good"), ("with a reason", "good"), ""]))
        for club in self.bag.clubs:
            setup = safe(describe_setup(club.raw, self.services.units))
            if words in club.address or words in setup.casefold():
                here = bool(self._name_in_makeup(club))
                mark = ("✓", "accent") if here else ""
                name = (safe(club.address), "strong" if here else "muted")
                out.append(Row(club.address, [mark, name, setup, ("" if club.carried else "at hand", "muted")]))
        return out
