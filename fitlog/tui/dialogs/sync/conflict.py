"""A conflict: both values with who, when and why; choose one, or later."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget

from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.text.sanitize import safe, wrap
from fitlog.tui.widgets.scroll_text import ScrollText, line

if TYPE_CHECKING:
    from fitlog.saving.conflicts import Choice, Side

_WIDTH = 84


class ConflictDialog(Dialog[bool]):
    """↑ ↓ choose between the two, Tab goes to the next; nothing waits."""

    title_text = "Changed in two places: which of the two stays?"
    hint = "↑ ↓ which of the two    ⏎ settles it for all vans    esc leaves it for later"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up,down", "other_side", show=False, priority=True),
        Binding("tab", "turn(1)", show=False, priority=True),
        Binding("shift+tab", "turn(-1)", show=False, priority=True),
    ]

    def __init__(self, choices: "Sequence[Choice]") -> None:
        super().__init__("choose")
        self.choices = list(choices)
        self.at = 0
        self.takes_other = False
        self.names: dict[str, str] = {}  # of the players, once they are read

    def on_mount(self) -> None:
        players = {each.player for each in self.choices if each.player}
        self.ask(lambda desk: {each: desk.workspace.name_of(each) for each in players}, self._know_names)

    def _know_names(self, names: dict[str, str]) -> None:
        self.names = names
        self._show()

    def middle(self) -> Iterable[Widget]:
        yield ScrollText(self._both_sides(), id="both")

    @property
    def choice(self) -> "Choice":
        """The one that is asked about."""
        return self.choices[self.at]

    def _both_sides(self) -> Content:
        choice = self.choice
        who = f"{safe(self.names.get(choice.player, choice.player))}: " if choice.player else ""
        count = f"   {self.at + 1} of {len(self.choices)}, tab: the next" if len(self.choices) > 1 else ""
        out = [line((f"{who}{safe(choice.place or choice.file)}", "bold $ink-accent"), (count, "$ink-muted"))]
        for other, name, side in ((False, "as it stands now", choice.stands), (True, "the other", choice.other)):
            out += [line(""), *_side(name, side, other == self.takes_other)]
        if choice.settled:
            out += [line(""), line(("the file has changed again since", "$ink-warn"))]
        return line("\n").join(out)

    def _show(self) -> None:
        self.query_one("#both", ScrollText).show(self._both_sides())

    def action_other_side(self) -> None:
        """The other one of the two."""
        self.takes_other = not self.takes_other
        self._show()

    def action_turn(self, by: int) -> None:
        """Another choice."""
        self.at = (self.at + by) % len(self.choices)
        self.takes_other = False
        self.trouble("")
        self._show()

    def submit(self, text: str, /) -> None:
        if not text.strip():
            self.trouble("a reason is missing; say in a few words why, the other van will want to know")
            return
        choice, other = self.choice, self.takes_other

        def work(desk: Desk) -> SaveResult:
            from fitlog.saving.conflicts import OTHER, STANDS
            from fitlog.sync.resolve import choose

            return choose(desk, choice.id, OTHER if other else STANDS, text)

        self.do(work, self._show_next)

    def _show_next(self, result: SaveResult) -> None:
        rest = [each for each in self.choices if each.id != self.choice.id]
        if not rest:
            self.close_with(result, True)
            return
        self.busy = False
        self.choices, self.at, self.takes_other = rest, min(self.at, len(rest) - 1), False
        self.line.value = ""
        self.services.show_notice(result.subject)
        self._show()


def _side(name: str, side: "Side", is_marked: bool) -> list[Content]:
    mark, style = ("▸ ", "bold $ink-accent") if is_marked else ("  ", "$ink-muted")
    first, *more = wrap(safe(side.text), _WIDTH - 22)
    out = [line((mark, style), (f"{name:<18}", style), (first, "bold" if is_marked else ""))]
    out += [line(" " * 20, (each, "bold" if is_marked else "")) for each in more]
    when = f"{side.when:%Y-%m-%d %H:%M}" if side.when else ""
    if origin := ", ".join(filter(None, (safe(side.by), when))):
        out.append(line(" " * 20, (origin, "$ink-muted")))
    if side.reason:
        out += [line(" " * 20, (each, "$ink-muted")) for each in wrap("because " + safe(side.reason), _WIDTH - 22)]
    return out
