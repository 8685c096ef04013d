"""The session: reference and candidates side by side, and a line that takes the shots of the marked test."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.widgets import Input

from fitlog.actions.session.shots import add_shots
from fitlog.records.errors import FitlogError
from fitlog.records.session import CANDIDATE, REFERENCE, ClubTest, Shot
from fitlog.records.shot_line import parse_shot_line
from fitlog.records.words import format_label
from fitlog.saving.desk import Desk
from fitlog.tui.base import keys, pages
from fitlog.tui.base.command import Availability, Command, needs
from fitlog.tui.base.worker import ASKED
from fitlog.tui.commands import everywhere, player
from fitlog.tui.session.session_base import SessionBase
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Rows
from fitlog.views.session.columns import format_shot
from fitlog.views.verdict.evidence import suspicious

if TYPE_CHECKING:
    from fitlog.saving.save import Done

_NO_TEST = "no test is set up yet"


class SessionPage(SessionBase):
    """One session of one player, to log shots into."""

    AUTO_FOCUS = "#entry"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "mark(-1)", show=False),
        Binding("down", "mark(1)", show=False),
    ]

    # typing

    def _purpose(self) -> str:
        return f"shot {self.player} {self.where}"

    def stand_on(self, test: str) -> None:
        """Mark a test; what was typed for it and not logged is in the line again."""
        self.line_told = True
        self.test_id = test
        self._slot = self.slot
        with self.prevent(Input.Changed):
            self.entry.value = self.services.draft(self._purpose())
        self.entry.cursor_position = len(self.entry.value)
        rows = self.query_one("#shots", Rows)
        rows.rows = []
        self.entry.disabled = self.test is None
        if self.test is not None:
            self.entry.focus()

    @on(Input.Changed, "#entry")
    def _typed(self, event: Input.Changed) -> None:
        self.services.keep_draft(self._purpose(), event.value)
        self.notice("")
        self.show_asked(event.value)

    @on(Input.Submitted, "#entry")
    def _log_typed(self) -> None:
        """Log the shot that is typed: it is on disk when this returns."""
        text = self.entry.value
        if self.test is not None and text.strip():
            self._log([text])

    def on_line_several(self, pasted: Line.Several) -> None:
        """Several lines pasted at once are several shots."""
        if self.test is not None:
            self._log(pasted.texts)

    def _log(self, texts: Sequence[str]) -> None:
        try:
            shots = [self._values(text) for text in texts]
            with self.services.worker.typing:
                ids = add_shots(self.services.desk, self.player, self.where, shots)
        except FitlogError as error:
            self.notice(str(error), "trouble")
            return
        self.shots.setdefault(self.test_id, []).extend(
            Shot(**{**values, "id": shot}) for shot, values in zip(ids, shots, strict=True)
        )
        self.stamp = self.read_stamp()
        self.notice("")
        if len(texts) == 1:
            with self.prevent(Input.Changed):  # what comes of a change by hand would wipe out what is said below
                self.entry.value = ""
            self.services.keep_draft(self._purpose(), "")
        self.show()
        if odd := [each for values in shots for each in suspicious(values, self.services.units)]:
            self.notice("logged, but look: " + "; ".join(odd), "note")

    def _values(self, text: str) -> dict[str, Any]:
        return parse_shot_line(text, self.columns, self.services.units.shot)

    # keys

    def scroller(self) -> Rows:
        return self.query_one("#shots", Rows)

    def action_mark(self, by: int) -> None:
        """Mark another shot."""
        self.query_one("#shots", Rows).action_move(by)

    def _turn(self, by: int) -> None:
        """Mark another test."""
        tests = sorted(self.picture.record.test, key=lambda each: _order(self, each)) if self.picture else []
        names = [each.id for each in tests]
        if self.test_id in names and len(names) > 1:
            self.ask(_end_shots)
            self.stand_on(names[(names.index(self.test_id) + by) % len(names)])
            self.show()

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.LOG_SHOT, self._log_typed, self._has_test),
            Command(keys.NEW_TEST, self._new_candidate, lambda: needs(self.slot, _NO_TEST)),
            player.bench(self, lambda: self.where),
            Command(keys.DECIDE, self._decide, self._has_test),
            Command(keys.TAKE_BACK, self._take_back, self._has_shots),
            Command(keys.LEAVE_OUT, self._leave_out, self._has_shots),
            Command(keys.IMPORT_FILE, self._import_file, self._has_test),
            Command(keys.COLUMNS, self._choose_columns, self._has_test),
            Command(keys.PLACE_AND_AIR, self._edit_details, lambda: needs(self.picture, _NO_TEST)),
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
        return needs(self.test, _NO_TEST)

    def _has_shots(self) -> Availability:
        return needs(self.shots.get(self.test_id), "this test has no shot yet" if self.test else _NO_TEST)

    def _is_candidate(self) -> Availability:
        if self.test is None:
            return needs(False, _NO_TEST)
        return needs(self.test.role == CANDIDATE, "a reference has nothing to show; tab goes to the candidate")

    def _has_others(self) -> Availability:
        if self.picture is None or self.test is None:
            return needs(False, _NO_TEST)
        return needs(len(self.picture.record.test) > 1, "this is the only test of the session")

    def _take_back(self) -> None:
        """Take back the last shot."""
        where, shots = self.where, self.shots.get(self.test_id, [])
        said = " ".join(format_shot(shots[-1], self.columns)) if shots else ""

        def work(desk: Desk) -> "Done":
            from fitlog.actions.session.shots import take_back_shot

            return take_back_shot(desk, self.player, where)

        def then(done: "Done") -> None:
            self.notice(f"{done.subject}: {said}; the history keeps it")
            self.load()

        self.ask(work, then, urgency=ASKED)

    def _leave_out(self) -> None:
        """Leave the marked shot out, or count it again."""
        from fitlog.tui.dialogs.confirmations import leave_out

        key = self.query_one("#shots", Rows).key
        shot = next((each for each in self.shots.get(self.test_id, []) if each.id == key), None)
        if shot is not None:
            said = "  ".join(
                f"{format_label(name)} {value}"
                for name, value in zip(self.columns, format_shot(shot, self.columns), strict=True)
            )
            self.app.push_screen(leave_out(self.player, self.where, shot.id, said, not shot.excluded))

    def _new_candidate(self) -> None:
        """Another candidate for the same slot."""
        from fitlog.tui.dialogs.clubs import NewCandidate

        test = self.test
        other = self.where if test is not None and test.role == CANDIDATE else ""
        self.app.push_screen(NewCandidate(self.player, self.slot, other), self._made)

    def _made(self, where: str | None) -> None:
        if where:
            self.session, _, self.test_id = where.partition("#")
            self.line_told = False
            self.load()

    def _new_reference(self) -> None:
        """The bag's club as reference."""

        def work(desk: Desk) -> Any:
            from fitlog.actions.session.setup import start_test

            return start_test(desk, self.player, self.slot, role=REFERENCE)

        self.ask(work, lambda started: self._made(started.ref), urgency=ASKED)

    def _choose_columns(self) -> None:
        """Which numbers are typed."""
        from fitlog.tui.session.columns import Columns

        self.app.push_screen(Columns(self.player, self.session, self.columns), self._other_columns)

    def _other_columns(self, changed: bool | None) -> None:
        if changed:
            self._columns = ("", ())
            self.load()

    def _edit_details(self) -> None:
        """Place, ball and air."""
        from fitlog.tui.session.details import SessionDetails

        self.app.push_screen(SessionDetails(self.player, self.session))

    def _edit_criteria(self) -> None:
        """What the marked test must show."""
        if self.test is not None:
            player.edit_criteria(self, self.test, self.where)

    def _import_file(self) -> None:
        """Shots from a file."""
        from fitlog.tui.session.import_file import ImportFile

        self.app.push_screen(ImportFile(self.player, self.where), lambda _: self.load())

    def _decide(self) -> None:
        """The verdict on the marked test, or on the one that waits."""
        test = self.test
        self.ask(_end_shots)
        ref = self.where if test and test.role == CANDIDATE else ""
        self.open_page(pages.VERDICT, self.player, self.slot, ref)

    def _leaf(self, by: int) -> None:
        """Show the session before or after."""
        self.ask(_end_shots)
        self.read(by)

    def back(self) -> None:
        self.ask(_end_shots)
        super().back()


def _order(page: SessionPage, test: ClubTest) -> tuple[bool, str, bool]:
    """The slot that is tested now first, its reference before its candidates."""
    here = page.test
    return (here is None or test.slot != here.slot, test.slot, test.role != REFERENCE)


def _end_shots(desk: Desk) -> None:
    from fitlog.actions.session.shots import end_shots

    end_shots(desk)
