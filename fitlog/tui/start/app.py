"""The page without a workspace: make one, see the demo, open another."""

import os
from typing import ClassVar, NamedTuple

from textual import on
from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.widgets import Input, Static

from fitlog.records.errors import FitlogError, UsageError
from fitlog.tui import themes
from fitlog.tui.start.steps import CHOICES, DEMO, FOLDER_KEY, MAKE, OPEN, Answers
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.scroll_text import line, lines

WORKSPACE = "workspace.toml"


class StartChoice(NamedTuple):
    """The workspace to go on with; ``player`` whose bag is typed, or empty."""

    root: str
    player: str = ""


class StartApp(App[StartChoice]):
    """The questions of the first hour, one at a time."""

    TITLE = "fitlog"
    CSS_PATH = "../fitlog.tcss"
    ENABLE_COMMAND_PALETTE = False
    AUTO_FOCUS = ""  # the ways are chosen by keys of the page itself
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "step_back", show=False, priority=True),
        Binding("ctrl+c", "leave", show=False, system=True, priority=True),
        Binding("tab", "complete", show=False, priority=True),
        Binding("up", "move(-1)", show=False, priority=True),
        Binding("down", "move(1)", show=False, priority=True),
        Binding("enter", "choose(-1)", show=False),
        *(Binding(str(number), f"choose({number - 1})", show=False) for number in (1, 2, 3)),
    ]

    def __init__(self) -> None:
        super().__init__()
        self.answers = Answers()
        self.at = 0
        self.busy = False
        for theme in themes.THEMES:
            self.register_theme(theme)
        self.theme = themes.DARK

    def compose(self) -> ComposeResult:
        with Container(id="start"):
            yield Static("", id="story", markup=False)
            yield Static("", id="asked", markup=False)
            yield Line(id="line")
            yield Static("", id="trouble", markup=False)
            yield Static("", id="hint", markup=False)

    def on_mount(self) -> None:
        self._show()

    # showing

    def _show(self, trouble: str = "", value: str = "") -> None:
        asked = self.answers.question if self.answers.choice else None
        self.query_one("#story", Static).update(lines(self._story()))
        self.query_one("#asked", Static).update(line((safe(asked.text) + " ›" if asked else "", "bold $ink-accent")))
        entry = self.query_one(Line)
        entry.value = value
        entry.display = asked is not None
        entry.placeholder = asked.otherwise if asked else ""
        self.query_one("#trouble", Static).update(line(("! " + safe(trouble) if trouble else "", "bold $ink-bad")))
        self.query_one("#hint", Static).update(line((self._hint(), "$ink-muted")))
        self.screen.set_focus(entry if asked is not None else None)

    def _story(self) -> list[Content]:
        out = [
            line(("fitlog", "bold $primary"), "  a log of golf-club fitting, in plain files that are yours"),
            line(""),
        ]
        if not self.answers.choice:
            out.append(line("There is no workspace in this folder yet."))
            out.append(line(""))
            for place, (_, text) in enumerate(CHOICES):
                here = place == self.at
                out.append(line((f" {'▸' if here else ' '} {place + 1}  {text}", "bold" if here else "")))
            return out
        out.append(line((dict(CHOICES)[self.answers.choice], "bold")))
        out += [line((f"   {key:<8}", "$ink-muted"), safe(value)) for key, value in self.answers.by_key.items()]
        return out

    def _hint(self) -> str:
        if self.busy:
            return "one moment …"
        if not self.answers.choice:
            return "↑ ↓ or 1 to 3 choose, ⏎ goes on    esc leaves"
        asked = self.answers.question
        help_text = f"{asked.help}    " if asked and asked.help else ""
        alone = f"⏎ alone takes {asked.otherwise}    " if asked and asked.otherwise else ""
        complete = "tab completes    " if asked and asked.key == FOLDER_KEY else ""
        return f"{help_text}{alone}{complete}esc goes one step back"

    # keys

    def action_move(self, by: int) -> None:
        """Another way."""
        if not self.answers.choice:
            self.at = (self.at + by) % len(CHOICES)
            self._show()

    def action_step_back(self) -> None:
        """One step back; from the first, out."""
        if self.busy:
            return
        if not self.answers.back():
            self.exit()
        else:
            self._show()

    def action_leave(self) -> None:
        """Leave; nothing is made."""
        self.exit()

    def action_choose(self, place: int) -> None:
        """Take a way; -1 is the one that is marked."""
        self._choose(self.at if place < 0 else place)

    def action_complete(self) -> None:
        """Complete the folder that is typed."""
        names = self.query_one(Line).complete_path(folders_only=True)
        self.query_one("#hint", Static).update(line((safe(names) or self._hint(), "$ink-muted")))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Ways are chosen while none is; later the keys belong to the line."""
        if action in ("choose", "move"):
            return not self.answers.choice
        if action == "complete":
            asked = self.answers.question if self.answers.choice else None
            return asked is not None and asked.key == FOLDER_KEY
        return super().check_action(action, parameters)

    def _choose(self, place: int) -> None:
        self.at = place
        self.answers.choose(CHOICES[place][0])
        self._show()

    @on(Input.Submitted)
    def _take_answer(self, event: Input.Submitted) -> None:
        event.stop()
        if self.busy or not self.answers.choice:
            return
        try:
            self.answers.answer(event.value)
        except FitlogError as error:
            self._show(str(error), event.value)
            return
        if self.answers.question is not None:
            self._show()
            return
        self.busy = True
        self._show()
        self.run_worker(self._do, thread=True, exclusive=True)

    # doing

    def _do(self) -> None:
        """Make or find the workspace, in a thread of its own."""
        try:
            opened = self._make_workspace()
        except FitlogError as error:
            self.call_from_thread(self._ask_again, str(error))
        else:
            self.call_from_thread(self.exit, opened)

    def _ask_again(self, trouble: str) -> None:
        """Ask for the folder again: what else was answered is asked again with it."""
        self.busy = False
        self.answers.by_key.clear()
        self._show(trouble)

    def _make_workspace(self) -> StartChoice:
        given = self.answers.by_key
        root = os.path.abspath(given["folder"])
        if self.answers.choice == DEMO:
            from fitlog.demo import make_demo

            make_demo(root)
            return StartChoice(root)
        if self.answers.choice == OPEN:
            if not os.path.isfile(os.path.join(root, WORKSPACE)):
                raise UsageError("this is no workspace", where=root, do=f"name the folder that holds {WORKSPACE}")
            return StartChoice(root)
        return self._make(root)

    def _make(self, root: str) -> StartChoice:
        from fitlog.actions.workspace.start import start_workspace
        from fitlog.saving.desk import Desk

        assert self.answers.choice == MAKE
        given, player = self.answers.by_key, self.answers.player_id
        with Desk(root) as desk:
            start_workspace(desk, given["name"], given["units"] == "metres", player, given["player"], given["hand"])
        return StartChoice(root, player)


def ask_where_to_begin() -> StartChoice | None:
    """Show the first page; None where a person left it."""
    return StartApp().run()
