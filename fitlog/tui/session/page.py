"""The session: reference and candidates side by side, and a line that takes the shots of the marked test."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Input

from fitlog.edits.test_rows import refuse_decided
from fitlog.records.errors import FitlogError
from fitlog.records.session import CANDIDATE, REFERENCE, Shot
from fitlog.records.shot_line import parse_shot_line
from fitlog.records.words import format_label
from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk, refuse_past
from fitlog.tui.base import keys, pages
from fitlog.tui.base.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.commands import everywhere, player
from fitlog.tui.session.state import SessionState
from fitlog.tui.session.text import ABOUT
from fitlog.tui.session.view import SessionView
from fitlog.tui.session.work import end_shots, prepare_saving
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Rows
from fitlog.views.session.columns import format_shot
from fitlog.views.verdict.evidence import suspicious

if TYPE_CHECKING:
    from fitlog.saving.save import Done
    from fitlog.views.session.overview import SessionOverview

WAITING_S = 0.35
_NO_TEST = "no test is set up yet"


class SessionPage(Page):
    """One session of one player, to log shots into."""

    kind = pages.SESSION
    about = ABOUT
    has_entry = True
    AUTO_FOCUS = "#entry"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "mark(-1)", show=False),
        Binding("down", "mark(1)", show=False),
    ]

    def __init__(self, player: str, session: str = "", test: str = "", slot: str = "") -> None:
        super().__init__(player)
        self.state = SessionState(player, session, test, slot)
        self.view = SessionView(self, self.state)
        self._line_is_filled = False  # whether what was typed for the marked test is in the line again

    def body(self) -> Sequence[Widget]:
        return self.view.widgets()

    # reading

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, [self.player], self.player, self.state.session)

    def load(self) -> None:
        self._read(0)
        self.count_pending()

    def _read(self, by: int) -> None:
        """Read this session, or the one so many places on."""
        session = self.state.session

        def work(desk: Desk) -> "tuple[str, SessionOverview | None]":
            from fitlog.views.session.overview import session_overview

            return desk.workspace.player(self.player).name, session_overview(desk, self.player, session, by)

        self.ask(work, self._loaded, group="session", holds_keys=self.state.overview is None)

    def _loaded(self, found: "tuple[str, SessionOverview | None]") -> None:
        is_other = self.state.update(*found)
        self.state.add_waiting(self.services.shot_queue.waiting(self.player))
        self.stamp = self.read_stamp()
        if is_other or not self._line_is_filled:
            self._mark_test(self.state.test_id)
        self.show()
        self.show_state()
        self.services.save(prepare_saving(self.player, self.state.session))

    # showing

    @property
    def slot(self) -> str:
        return self.state.slot

    def trail(self) -> tuple[str, ...]:
        return self.view.trail()

    def show(self) -> None:
        """Bring all of it up to date."""
        self.view.show(self.services.units)

    def on_resize(self) -> None:
        if self.is_mounted:
            self.call_after_refresh(self.show)

    def scroller(self) -> Rows:
        return self.view.shots

    # typing

    def _purpose(self) -> str:
        return f"shot {self.player} {self.state.test_ref}"

    def _mark_test(self, test_id: str) -> None:
        """Mark a test; what was typed for it and not logged is in the line again."""
        self._line_is_filled = True
        self.state.mark(test_id)
        entry = self.view.entry
        with self.prevent(Input.Changed):
            entry.value = self.services.draft(self._purpose())
        entry.cursor_position = len(entry.value)
        self.view.shots.rows = []
        entry.disabled = self.state.test is None
        if self.state.test is not None:
            entry.focus()

    @on(Input.Changed, "#entry")
    def _typed(self, event: Input.Changed) -> None:
        self.services.keep_draft(self._purpose(), event.value)
        self.notice("")
        self.view.show_columns(event.value, self.services.units)

    @on(Input.Submitted, "#entry")
    def _submit(self, event: Input.Submitted) -> None:
        self._log_line(event.value)

    def _log_typed(self) -> None:
        self._log_line(self.view.entry.value)

    def _log_line(self, text: str) -> None:
        """Log the shot that is typed: it is on the disk before its line is empty. An empty line brings one back."""
        if self.state.test is None:
            return
        if not text.strip():
            self._bring_back()
        elif self._log([text]):
            with self.prevent(Input.Changed):  # what comes of a change by hand would wipe out the notice
                self.view.entry.value = ""
            self.services.keep_draft(self._purpose(), "")

    def on_line_several(self, pasted: Line.Several) -> None:
        """Several lines pasted at once are several shots."""
        self._log(pasted.texts)

    def _log(self, texts: Sequence[str]) -> bool:
        """Log shots; returns whether they are on the disk."""
        test = self.state.test
        if test is None:
            return False
        try:
            refuse_past(self.services.desk)
            refuse_decided(test.raw, self.state.test_ref)
            values = [self._values(text) for text in texts]
            shots = self.state.identify(values, self.services.desk.draw, self.services.desk.now().time())
            self.services.shot_queue.log(self.player, self.state.test_ref, shots, texts)
        except FitlogError as error:
            self.notice(str(error), "trouble")
            return False
        self.state.add(self.state.test_id, [Shot(**shot) for shot in shots])
        self.notice("")
        self.show()
        self.set_timer(WAITING_S, self.show_state)
        if odd := [each for shot in values for each in suspicious(shot, self.services.units)]:
            self.notice("logged, but check: " + "; ".join(odd), "note")
        return True

    def _bring_back(self) -> None:
        """Put a shot that cannot be saved into the line again."""
        queue = self.services.shot_queue
        waiting = queue.waiting(self.player, self.state.test_ref)
        if waiting and queue.reason:
            queue.take_back(waiting[0])
            self.state.remove(self.state.test_id, str(waiting[0].shot["id"]))
            self.view.entry.value = waiting[0].text
            self.view.entry.cursor_position = len(waiting[0].text)
            self.show()

    def shots_saved(self) -> None:
        queue = self.services.shot_queue
        if queue.reason and queue.waiting(self.player, self.state.test_ref):
            self.notice(f"not saved yet: {queue.reason}; ⏎ on an empty line brings it back", "trouble")
        else:
            self.stamp = self.read_stamp()

    def _values(self, text: str) -> dict[str, Any]:
        return parse_shot_line(text, self.state.columns, self.services.units.shot)

    # keys

    def action_mark(self, by: int) -> None:
        """Mark another shot."""
        self.view.shots.action_move(by)

    def _turn(self, by: int) -> None:
        """Mark another test."""
        if other := self.state.turn(by):
            self.services.save(end_shots)
            self._mark_test(other)
            self.show()

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.LOG_SHOT, self._log_typed, self._has_test),
            Command(keys.NEW_TEST, self._new_candidate, lambda: needs(self.slot, _NO_TEST)),
            player.bench(self, lambda: self.state.test_ref),
            Command(keys.DECIDE, self._decide, self._has_test),
            Command(keys.TAKE_BACK, self._take_back, self._has_shots),
            Command(keys.LEAVE_OUT, self._leave_out, self._has_shots),
            Command(keys.IMPORT_FILE, self._import_file, self._has_test),
            Command(keys.COLUMNS, self._choose_columns, self._has_test),
            Command(keys.PLACE_AND_AIR, self._edit_details, lambda: needs(self.state.overview, _NO_TEST)),
            Command(keys.CRITERIA, self._edit_criteria, self._is_candidate),
            Command(keys.REFERENCE, self._new_reference, self._has_test),
            Command(keys.OLDER, lambda: self._leaf(-1)),
            Command(keys.NEWER, lambda: self._leaf(1)),
            *everywhere.sharing(self),
            Command(keys.NEXT, lambda: self._turn(1), self._has_others),
            Command(keys.PREVIOUS, lambda: self._turn(-1), self._has_others),
            *everywhere.standard(self),
        )

    def _has_test(self) -> Availability:
        return needs(self.state.test, _NO_TEST)

    def _has_shots(self) -> Availability:
        return needs(self.state.marked_shots, "this test has no shot yet" if self.state.test else _NO_TEST)

    def _is_candidate(self) -> Availability:
        if self.state.test is None:
            return needs(False, _NO_TEST)
        return needs(self.state.test.role == CANDIDATE, "a reference has nothing to show; tab goes to the candidate")

    def _has_others(self) -> Availability:
        if self.state.test is None:
            return needs(False, _NO_TEST)
        return needs(len(self.state.tests) > 1, "this is the only test of the session")

    def _take_back(self) -> None:
        """Take back the last shot."""
        test_ref, shots = self.state.test_ref, self.state.marked_shots
        values = " ".join(format_shot(shots[-1], self.state.columns)) if shots else ""

        def work(desk: Desk) -> "Done":
            from fitlog.actions.session.shots import take_back_shot

            return take_back_shot(desk, self.player, test_ref)

        def then(done: "Done") -> None:
            self.notice(f"{done.subject}: {values}; the history keeps it")
            self.load()

        self.save(work, then)

    def _leave_out(self) -> None:
        """Leave the marked shot out, or count it again."""
        from fitlog.tui.dialogs.confirmations import leave_out

        shot = next((each for each in self.state.marked_shots if each.id == self.view.shots.key), None)
        if shot is not None:
            columns = self.state.columns
            text = "  ".join(
                f"{format_label(name)} {value}"
                for name, value in zip(columns, format_shot(shot, columns), strict=True)
            )
            self.app.push_screen(leave_out(self.player, self.state.test_ref, shot.id, text, not shot.excluded))

    def _new_candidate(self) -> None:
        """Another candidate for the same slot."""
        from fitlog.tui.dialogs.clubs import NewCandidate

        self.app.push_screen(NewCandidate(self.player, self.slot, self.state.candidate_ref), self._open_test)

    def _open_test(self, test_ref: str | None) -> None:
        if test_ref:
            self.state.open_test(test_ref)
            self._line_is_filled = False
            self.load()

    def _new_reference(self) -> None:
        """The bag's club as reference."""

        def work(desk: Desk) -> Any:
            from fitlog.actions.session.setup import start_test

            return start_test(desk, self.player, self.slot, role=REFERENCE)

        self.save(work, lambda started: self._open_test(started.ref))

    def _choose_columns(self) -> None:
        """Which numbers are typed."""
        from fitlog.tui.session.columns import Columns

        self.app.push_screen(Columns(self.player, self.state.session, self.state.columns), self._other_columns)

    def _other_columns(self, changed: bool | None) -> None:
        if changed:
            self.state.reset_columns()
            self.load()

    def _edit_details(self) -> None:
        """Place, ball and air."""
        from fitlog.tui.session.details import SessionDetails

        self.app.push_screen(SessionDetails(self.player, self.state.session))

    def _edit_criteria(self) -> None:
        """What the marked test must show."""
        if self.state.test is not None:
            player.edit_criteria(self, self.state.test, self.state.test_ref)

    def _import_file(self) -> None:
        """Shots from a file."""
        from fitlog.tui.session.import_file import ImportFile

        self.app.push_screen(ImportFile(self.player, self.state.test_ref), lambda _: self.load())

    def _decide(self) -> None:
        """The verdict on the marked test, or on the one that waits."""
        self.services.save(end_shots)
        self.open_page(pages.VERDICT, self.player, self.slot, self.state.candidate_ref)

    def _leaf(self, by: int) -> None:
        """Show the session before or after."""
        self.services.save(end_shots)
        self._read(by)

    def back(self) -> None:
        self.services.save(end_shots)
        super().back()
