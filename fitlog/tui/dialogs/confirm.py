"""One action with its plan: see what it changes, type why, press Enter."""

from collections.abc import Callable, Iterable, Sequence
from typing import Any, ClassVar, NamedTuple

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.base.work.worker import LOOKING
from fitlog.tui.dialogs.dialog import REASON, Dialog
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.scroll_text import ScrollText, bullet, line

_NOTHING_TO_DO = "nothing to do"


class Option(NamedTuple):
    """One way to do it: what a person reads, and the value it stands for."""

    text: str
    value: str


class Preview(NamedTuple):
    """What the action would change, in lines, and the plan that binds it."""

    lines: Sequence[str]
    plan: Any = None
    is_empty: bool = False  # nothing would change: Enter closes, no reason is asked for


class Answer(NamedTuple):
    """What was confirmed: place, scope, text, and the plan on the screen."""

    place: str
    scope: str
    text: str
    plan: Any = None


Planner = Callable[[Desk, str, str], Preview]
Action = Callable[[Desk, Answer], SaveResult]


class Confirm(Dialog[bool]):
    """``places`` by ↑ ↓, ``scopes`` by Tab; ``plan`` gives the preview of both.

    ``names`` are what scope and place are called. After a refusal the plan is made anew: what is on the screen is
    what Enter does. Where ``does`` says what Enter does, nothing is typed.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "place(-1)", show=False, priority=True),
        Binding("down", "place(1)", show=False, priority=True),
        Binding("tab", "scope(1)", show=False, priority=True),
        Binding("shift+tab", "scope(-1)", show=False, priority=True),
    ]

    def __init__(
        self,
        title: str,
        plan: Planner,
        action: Action,
        places: Sequence[Option] = (),
        scopes: Sequence[Option] = (),
        more_places: Callable[[Desk], Sequence[Option]] | None = None,
        asks: str = REASON,
        draft: str = "",
        must_type: bool = True,
        does: str = "",
        names: tuple[str, str] = ("what", "to"),
    ) -> None:
        super().__init__(draft)
        if does:
            self.types, self.hint = False, f"⏎ {does}    esc leaves it"
        elif asks == REASON:
            self.hint = (
                f"⏎ do it    {'^↑' if places else '↑'} a reason used before    esc leaves; what is typed is kept"
            )
        self.title_text, self.asks = title, asks
        self._plan, self._action = plan, action
        self.places, self.scopes = list(places), list(scopes)
        self._more = more_places
        self._names = names
        self._place = self._scope = 0
        self._preview: Preview | None = None
        self._must_type = must_type and not does

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="choices")
        yield ScrollText(id="plan")

    def on_mount(self) -> None:
        if self._more is not None:
            self.ask(self._more, self._add_options)
        self._choose()

    def _add_options(self, options: Sequence[Option]) -> None:
        known = {each.value for each in self.places}
        self.places += [each for each in options if each.value not in known]
        self._show_choices()

    @property
    def choice(self) -> tuple[str, str]:
        """The place and the scope that are chosen."""
        place = self.places[self._place].value if self.places else ""
        scope = self.scopes[self._scope].value if self.scopes else ""
        return place, scope

    def _show_choices(self) -> None:
        out = []
        width = max(map(len, self._names)) + 1
        if self.scopes:
            out.append(_wheel(self._names[0].ljust(width), self.scopes, self._scope, "tab"))
        if self.places:
            out.append(_wheel(self._names[1].ljust(width), self.places, self._place, "↑ ↓"))
        choices = self.query_one("#choices", Static)
        choices.set_class(not out, "-nothing")
        choices.update(Content("\n").join(out))

    def _choose(self) -> None:
        self.trouble("")
        self._make_plan()

    def _make_plan(self) -> None:
        self._show_choices()
        self._preview = None
        pad = self.query_one(ScrollText)
        pad.show(line(("computing what would change …", "$ink-muted")))
        place, scope = self.choice
        self.ask(lambda desk: self._plan(desk, place, scope), self._show_plan, self._no_plan, "plan", LOOKING)

    def _show_plan(self, preview: Preview) -> None:
        self._preview = preview
        if self.types:
            self.query_one(".name", Static).update(Content(f"{_NOTHING_TO_DO if preview.is_empty else self.asks} ›"))
        self.hint_at("⏎ closes    esc leaves" if preview.is_empty else self.hint)
        pad = self.query_one(ScrollText)
        rows = [row for each in preview.lines for row in bullet(" ", "", each, "", (pad.size.width or 78) - 2)]
        pad.show(rows or [line(("nothing would change", "$ink-muted"))])

    def _no_plan(self, error: str) -> None:
        self.query_one(ScrollText).show(line(("nothing to do here", "$ink-muted")))
        self.trouble(error)

    def action_place(self, by: int) -> None:
        """Another place to go to; where there is no choice, another reason given before."""
        if len(self.places) > 1:
            self._place = (self._place + by) % len(self.places)
            self._choose()
        elif self.types and self.line.recalls:
            self.line.action_recall(-by)

    def action_scope(self, by: int) -> None:
        """Another scope."""
        if len(self.scopes) > 1:
            self._scope = (self._scope + by) % len(self.scopes)
            self._choose()

    def submit(self, text: str) -> None:
        preview = self._preview
        if preview is None:
            self.trouble("what would change is not known yet; wait a moment, or choose another place")
        elif preview.is_empty:
            self.dismiss(None)
        elif self._must_type and not text.strip():
            self.trouble(f"a {self.asks} is missing; say in a few words why, you will want it next season")
        else:
            answer = Answer(*self.choice, text, preview.plan)
            self.busy = True
            self.save(
                lambda desk: self._action(desk, answer), lambda done: self.close_with(done, True), self._plan_again
            )

    def _plan_again(self, error: str) -> None:
        self.trouble(error)
        self._make_plan()


def _wheel(name: str, choices: Sequence[Option], at: int, keys: str) -> Content:
    text = safe(choices[at].text)
    tail = f"   {keys} changes it ({at + 1} of {len(choices)})" if len(choices) > 1 else ""
    return line((name, "$ink-muted"), (text, "bold"), (tail, "$ink-muted"))
