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
from fitlog.tui.base.worker import ASKED
from fitlog.tui.session.session_base import SessionShown
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Rows
from fitlog.views.session.columns import format_shot
from fitlog.views.verdict.evidence import suspicious

if TYPE_CHECKING:
    from fitlog.saving.save import Done


class SessionPage(SessionShown):
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
            self.entry.value = self.house.draft(self._purpose())
        self.entry.cursor_position = len(self.entry.value)
        rows = self.query_one("#shots", Rows)
        rows.rows = []
        self.entry.disabled = self.test is None
        if self.test is not None:
            self.entry.focus()

    @on(Input.Changed, "#entry")
    def _typed(self, event: Input.Changed) -> None:
        self.house.keep_draft(self._purpose(), event.value)
        self.notice("")
        self.show_asked(event.value)

    @on(Input.Submitted, "#entry")
    def _enter(self) -> None:
        self.do_shoot()

    def do_shoot(self) -> None:
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
            with self.house.clerk.typing:
                ids = add_shots(self.house.desk, self.player, self.where, shots)
        except FitlogError as error:
            self.notice(str(error), "trouble")
            return
        self.shots.setdefault(self.test_id, []).extend(
            Shot(**{**values, "id": shot}) for shot, values in zip(ids, shots, strict=True)
        )
        self.pulse = self.look()
        self.notice("")
        if len(texts) == 1:
            with self.prevent(Input.Changed):  # what comes of a change by hand would wipe out what is said below
                self.entry.value = ""
            self.house.keep_draft(self._purpose(), "")
        self.show()
        if odd := [each for values in shots for each in suspicious(values, self.house.units)]:
            self.notice("logged, but look: " + "; ".join(odd), "note")

    def _values(self, text: str) -> dict[str, Any]:
        return parse_shot_line(text, self.columns, self.house.units.shot)

    # keys

    def scroller(self) -> Rows:
        return self.query_one("#shots", Rows)

    def action_mark(self, by: int) -> None:
        """Mark another shot."""
        self.query_one("#shots", Rows).action_move(by)

    def do_next(self) -> None:
        """The next test."""
        self._switch(1)

    def do_previous(self) -> None:
        """The test before."""
        self._switch(-1)

    def _switch(self, by: int) -> None:
        tests = sorted(self.picture.record.test, key=lambda each: _order(self, each)) if self.picture else []
        names = [each.id for each in tests]
        if self.test_id in names and len(names) > 1:
            self.ask(_end_shots)
            self.stand_on(names[(names.index(self.test_id) + by) % len(names)])
            self.show()

    def can(self, command: str) -> bool:
        if command in ("take_back", "leave_out"):
            return bool(self.shots.get(self.test_id))
        if command in ("shoot", "file", "columns", "decide", "reference"):
            return self.test is not None
        if command == "details":
            return self.picture is not None
        if command == "criteria":
            return self.test is not None and self.test.role == CANDIDATE
        if command == "next":
            return bool(self.picture and len(self.picture.record.test) > 1)
        if command == "candidate":
            return bool(self.slot)
        return super().can(command)

    def why_not(self, command: str) -> str:
        if self.test is None:
            return super().why_not(command) or "no test is set up yet"
        return super().why_not(command) or {
            "take_back": "this test has no shot yet", "leave_out": "this test has no shot yet",
            "criteria": "a reference has nothing to show; tab goes to the candidate",
            "next": "this is the only test of the session",
        }.get(command, "")  # fmt: skip

    def do_take_back(self) -> None:
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

    def do_leave_out(self) -> None:
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

    def do_candidate(self) -> None:
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

    def do_reference(self) -> None:
        """The bag's club as reference."""

        def work(desk: Desk) -> Any:
            from fitlog.actions.session.setup import start_test

            return start_test(desk, self.player, self.slot, role=REFERENCE)

        self.ask(work, lambda started: self._made(started.ref), urgency=ASKED)

    def do_columns(self) -> None:
        """Which numbers are typed."""
        from fitlog.tui.session.columns import Columns

        self.app.push_screen(Columns(self.player, self.session, self.columns), self._other_columns)

    def _other_columns(self, changed: bool | None) -> None:
        if changed:
            self._columns = ("", ())
            self.load()

    def do_details(self) -> None:
        """Place, ball and air."""
        from fitlog.tui.session.details import SessionDetails

        self.app.push_screen(SessionDetails(self.player, self.session))

    def do_criteria(self) -> None:
        """What the marked test must show."""
        if self.test is not None:
            self.ask_what_it_must_show(self.test, self.where)

    def do_file(self) -> None:
        """Shots from a file."""
        from fitlog.tui.session.import_file import ImportFile

        self.app.push_screen(ImportFile(self.player, self.where), lambda _: self.load())

    def do_decide(self) -> None:
        """The verdict on the marked test, or on the one that waits."""
        from fitlog.tui.verdict.page import VerdictPage

        test = self.test
        self.ask(_end_shots)
        self.go(VerdictPage(self.player, self.where if test and test.role == CANDIDATE else "", self.slot))

    def do_older(self) -> None:
        """The session before."""
        self._leaf(-1)

    def do_newer(self) -> None:
        """The session after."""
        self._leaf(1)

    def _leaf(self, by: int) -> None:
        self.ask(_end_shots)
        self.read(by)

    def do_back(self) -> None:
        self.ask(_end_shots)
        super().do_back()


def _order(page: SessionPage, test: ClubTest) -> tuple[bool, str, bool]:
    """The slot that is tested now first, its reference before its candidates."""
    here = page.test
    return (here is None or test.slot != here.slot, test.slot, test.role != REFERENCE)


def _end_shots(desk: Desk) -> None:
    from fitlog.actions.session.shots import end_shots

    end_shots(desk)
