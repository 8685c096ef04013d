"""The session: tests side by side, and a line for the marked test's shots."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Input

from fitlog.records.models.session import REFERENCE, ref
from fitlog.records.wording.words import format_label
from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk
from fitlog.tui.base import pages
from fitlog.tui.base.commands import keys
from fitlog.tui.base.commands.command import AVAILABLE, Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.commands import everywhere, player
from fitlog.tui.session.command_rules import CommandRules
from fitlog.tui.session.entry import ShotEntry
from fitlog.tui.session.files.folder_reader import FolderChanged
from fitlog.tui.session.files.watch_folder import FolderCommands
from fitlog.tui.session.measure_bag import MeasuringRun
from fitlog.tui.session.state import SessionState
from fitlog.tui.session.text import ABOUT
from fitlog.tui.session.view import SessionView
from fitlog.tui.session.work import end_shots, prepare_saving
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Rows
from fitlog.views.session.columns import format_shot

if TYPE_CHECKING:
    from fitlog.evidence.criteria.criteria import Judgement
    from fitlog.saving.save import SaveResult
    from fitlog.views.session.overview import SessionOverview


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

    def __init__(
        self, player: str, session: str = "", test: str = "", slot: str = "", measuring: bool = False
    ) -> None:
        self.state = SessionState(player, session, test, slot)
        self.rules = CommandRules(self.state)
        super().__init__(player)
        self.view = SessionView(self, self.state)
        self.entry = ShotEntry(self, self.state, self.view)
        self.folder = FolderCommands(self, self.state, self.entry)
        self.measuring_run = MeasuringRun(self, self.state, self.show) if measuring else None
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
        session, slot = self.state.session, self.state.slot

        def work(desk: Desk) -> "tuple[str, SessionOverview | None]":
            from fitlog.views.session.overview import session_overview

            return desk.workspace.player(self.player).name, session_overview(desk, self.player, session, by, slot)

        self.ask(work, self._show_session, group="session", holds_keys=self.state.overview is None)

    def _show_session(self, loaded: "tuple[str, SessionOverview | None]") -> None:
        is_other = self.state.update(*loaded)
        self.state.add_waiting(self.services.shot_queue.queued_shots(self.player))
        self.stamp = self.read_stamp()
        if is_other or not self._line_is_filled:
            self._mark_test(self.state.test_id)
        self.show()
        self.show_state()
        self._judge()
        self.entry.question_all()
        if self.measuring_run:
            self.measuring_run.read()
        self.services.save(prepare_saving(self.player, self.state.session))

    def _judge(self) -> None:
        """Ask how the criteria stand, off the app's thread."""
        test = self.state.criteria_test
        if test is None:
            return
        test_id, test_ref = test.id, ref(self.state.session, test.id)

        def work(desk: Desk) -> "tuple[str, Sequence[Judgement]]":
            from fitlog.views.verdict.evidence import assessment

            return test_id, assessment(desk, self.player, test_ref).criteria

        self.ask_soon(work, self._show_judgement, "criteria", lambda _: None)

    def _show_judgement(self, loaded: "tuple[str, Sequence[Judgement]]") -> None:
        test_id, self.state.judgements[test_id] = loaded
        self.view.show_criteria()

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

    def _mark_test(self, test_id: str) -> None:
        """Mark a test; its unlogged text is in the line again, held shots come in."""
        self._line_is_filled = True
        self.state.mark(test_id)
        self.entry.fill()
        self.view.shots.rows = []
        self.view.entry.disabled = self.state.test is None
        if self.state.test is not None:
            self.view.entry.focus()
        elif self.state.slot and self.state.overview is not None:
            self.notice(f"no test of the {self.state.slot} in this session; ^r hits it as reference now", "note")
        self.folder.retry_held_back()

    @on(Input.Changed, "#entry")
    def _take_text(self, event: Input.Changed) -> None:
        self.notice("")
        self.entry.note_typed(event.value)

    @on(Input.Submitted, "#entry")
    def _submit(self, event: Input.Submitted) -> None:
        is_of_shot = event.value.strip() or self.state.corrected_id or self.state.is_marked_by_hand
        if is_of_shot or not self.folder.retry_held_back(other_club=True):
            self.entry.submit(event.value)

    def on_line_several(self, event: Line.Several) -> None:
        """Several lines pasted at once are several shots."""
        self.entry.log(event.texts)

    def shots_saved(self) -> None:
        queue = self.services.shot_queue
        if queue.reason and queue.queued_shots(self.player, self.state.test_ref):
            self.notice(f"not saved yet: {queue.reason}; ⏎ on an empty line brings it back", "trouble")
        else:
            self.stamp = self.read_stamp()
            self._judge()

    # keys

    def action_mark(self, by: int) -> None:
        """Mark another shot; Enter on the empty line then corrects it."""
        self.view.shots.action_move(by)
        self.state.is_marked_by_hand = bool(self.state.marked_shots)
        self.show_state()

    def _open_live(self) -> None:
        from fitlog.tui.dialogs.workspace.live import LivePage

        self.app.push_screen(LivePage(self.player))

    def _turn(self, by: int) -> None:
        """Mark another test; where the bag is measured, go on to another club."""
        if self.measuring_run:
            self.services.save(end_shots)
            self.measuring_run.turn(by, self._open_test)
        elif other := self.state.turn(by):
            self.services.save(end_shots)
            self._mark_test(other)
            self.show()
            self._judge()
            self.entry.question_all()

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.LOG_SHOT, lambda: self.entry.submit(self.view.entry.value), self.rules.has_test),
            Command(keys.NEW_TEST, self._new_candidate, self.rules.has_club),
            Command(keys.REFERENCE, self._new_reference, self.rules.has_club, lambda: self.state.test is None),
            player.bench(self, lambda: self.state.test_ref),
            Command(keys.DECIDE, self._decide, self.rules.has_test),
            Command(keys.TAKE_BACK, self._take_back, self.rules.has_shots),
            Command(keys.CORRECT, self._correct, self.rules.has_shots),
            Command(keys.LEAVE_OUT, self._leave_out, self.rules.has_shots),
            Command(keys.IMPORT_FILE, self._import_file, self.rules.has_test),
            Command(keys.COLUMNS, self._choose_columns, self.rules.has_test),
            Command(keys.PLACE_AND_AIR, self._edit_details, self.rules.has_session),
            Command(keys.CRITERIA, self._edit_criteria, self.rules.is_candidate),
            Command(keys.GUESS, self._note_guess, self.rules.can_guess),
            Command(keys.HIT_AGAIN, self._hit_again, self.rules.is_decided),
            player.which_change(self),
            Command(keys.PLAN, self._plan, self.rules.can_plan),
            Command(keys.LIVE, self._open_live, self.rules.has_session),
            Command(keys.OLDER, lambda: self._leaf(-1)),
            Command(keys.NEWER, lambda: self._leaf(1)),
            *everywhere.sync_commands(self),
            Command(keys.NEXT, lambda: self._turn(1), self._has_others),
            Command(keys.PREVIOUS, lambda: self._turn(-1), self._has_others),
            *everywhere.standard(self),
        )

    def _plan(self) -> None:
        """How many shots with each club, in what order, blind or open."""
        if self.state.test is not None:
            player.plan_shots(self, self.state.test, self.state.test_ref)

    def _note_guess(self) -> None:
        """What a person thinks that the marked candidate will show."""
        from fitlog.tui.session.files.guess import GuessDialog

        if self.state.test is not None:
            self.app.push_screen(
                GuessDialog(self.player, self.state.test_ref, self.state.test), lambda _: self.load()
            )

    def _has_others(self) -> Availability:
        if self.measuring_run:
            return AVAILABLE
        if not self.state.tests:
            return self.rules.has_test()
        return needs(self.state.turn(1), "this is the only test of the session")

    def _correct(self) -> None:
        """Correct the marked shot, or the one that was asked about last."""
        asked = "" if self.state.is_marked_by_hand else self.state.questioned_shot
        self.entry.correct(asked or self.view.shots.key)

    def _hit_again(self) -> None:
        """A retest: a new test of the same setup, linked to the one that was decided."""
        test_ref = self.state.test_ref

        def work(desk: Desk) -> Any:
            from fitlog.actions.session.setup import retest

            return retest(desk, self.player, test_ref)

        self.save(work, lambda started: self._open_test(started.ref))

    def _take_back(self) -> None:
        """Take back the last shot."""
        test_ref, shots = self.state.test_ref, self.state.marked_shots
        values = " ".join(format_shot(shots[-1], self.state.columns)) if shots else ""

        def work(desk: Desk) -> "SaveResult":
            from fitlog.actions.session.shots import take_back_shot

            return take_back_shot(desk, self.player, test_ref)

        def then(result: "SaveResult") -> None:
            self.notice(f"{result.subject}: {values}; the history keeps it")
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
        from fitlog.tui.dialogs.setup.clubs import NewCandidate

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
        from fitlog.tui.session.files.import_file import ImportFile

        def then(folder: str | None) -> None:
            self.load()
            if folder:
                self.folder.begin(folder)

        self.app.push_screen(ImportFile(self.player, self.state.test_ref), then)

    # a watched folder

    def more_state(self) -> Sequence[tuple[str, str]]:
        return self.folder.status

    @on(FolderChanged)
    def _folder_changed(self, event: FolderChanged) -> None:
        self.folder.take_in(event)

    def on_unmount(self) -> None:
        self.folder.end()
        if self.measuring_run:
            self.measuring_run.end()

    def _decide(self) -> None:
        """The verdict on the marked test, or on the one that waits."""
        self.services.save(end_shots)
        self.open_page(pages.VERDICT, self.player, self.slot, self.state.candidate_ref)

    def _leaf(self, by: int) -> None:
        """Show the session before or after."""
        self.services.save(end_shots)
        self._read(by)

    def back(self) -> None:
        if self.state.corrected_id:
            self.entry.cancel()
            return
        if self.folder.end():
            return
        if self.measuring_run:
            self.measuring_run.end()
        else:
            self.services.save(end_shots)
        super().back()
