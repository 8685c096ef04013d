"""The session: reference and candidates side by side, and a line that takes the shots of the marked test."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from fitlog.actions.desk import Desk
from fitlog.actions.evidence import suspicious
from fitlog.actions.pulse import Pulse, pulse
from fitlog.actions.tests import add_shots, check_shot, columns_of, parse_entry, shot_line
from fitlog.records.errors import FitlogError
from fitlog.records.session import CANDIDATE, REFERENCE, ClubTest, Shot, ref
from fitlog.records.words import label
from fitlog.tui import keys
from fitlog.tui.clerk import ASKED
from fitlog.tui.numbers import cluster_of, side_of
from fitlog.tui.safe import safe
from fitlog.tui.screens.playerpage import PlayerPage
from fitlog.tui.widgets.beside import beside
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.pad import Pad, Piece, line
from fitlog.tui.widgets.rows import Cell, Column, Row, Rows
from fitlog.tui.widgets.scatter import SHAPES, scatter

if TYPE_CHECKING:
    from fitlog.actions.saving import Done
    from fitlog.actions.sessionview import SessionPicture


class SessionPage(PlayerPage):
    """One session of one player."""

    page = keys.SESSION
    AUTO_FOCUS = "#entry"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "mark(-1)", show=False),
        Binding("down", "mark(1)", show=False),
    ]

    def __init__(self, player: str, session: str = "", test: str = "", slot: str = "") -> None:
        super().__init__(player)
        self.session = session
        self.test_id = test
        self._slot = slot
        self.picture: SessionPicture | None = None
        self.shots: dict[str, list[Shot]] = {}
        self._columns: tuple[str, tuple[str, ...]] = ("", ())

    def body(self) -> Sequence[Widget]:
        shots = Rows((), id="shots", empty="no shot yet: type the first one below")
        shots.can_focus = False
        shots.add_class("led")
        return (
            Pad(id="beside"),
            Container(shots, Static("", id="picture", markup=False), id="below"),
            Static("", id="asked", markup=False),
            Container(
                Static("", id="prompt", markup=False), Line(id="entry", commands="?<>=!", several=True), id="type"
            ),
        )

    # reading

    def look(self) -> Pulse:
        return pulse(self.house.root, [self.player], self.player, self.session)

    def load(self) -> None:
        self._read(0)
        self.count_pending()

    def _read(self, by: int) -> None:
        def work(desk: Desk) -> tuple[str, "SessionPicture | None"]:
            from fitlog.actions.sessionview import session_picture

            name = desk.workspace.player(self.player).name
            return name, session_picture(desk, self.player, self.session, by)

        self.ask(work, self._loaded, group="session")

    def _loaded(self, found: tuple[str, "SessionPicture | None"]) -> None:
        from fitlog.actions.sessionview import first_test

        self.player_name, picture = found
        other = picture is None or picture.name != self.session
        self.picture = picture
        if picture is not None:
            self.session = picture.name
            self.shots = {test.id: list(test.shots) for test in picture.record.test}
            before, self.test_id = self.test_id, first_test(picture, self.test_id, self._slot)
            other = other or before != self.test_id or not self.line_told
        self.pulse = self.look()
        if other:
            self._stand_on(self.test_id)
        self._show()
        self.show_state()
        self.ask(_warm(self.house.clerk), urgency=ASKED)

    line_told = False

    # what is meant

    @property
    def test(self) -> ClubTest | None:
        """The marked test."""
        tests = self.picture.record.test if self.picture else ()
        return next((each for each in tests if each.id == self.test_id), None)

    @property
    def slot(self) -> str:
        test = self.test
        if test is None:
            return self._slot
        return f"{test.slot}#{test.club}" if test.club else test.slot

    @property
    def where(self) -> str:
        """The marked test's address."""
        return ref(self.session, self.test_id)

    @property
    def columns(self) -> tuple[str, ...]:
        """The columns that are typed; they stay while the session is open, whatever another hand adds to it."""
        if self.picture is not None and self._columns[0] != self.session:
            self._columns = (self.session, columns_of(self.picture.record, self.test))
        return self._columns[1]

    def _tests(self) -> Sequence[ClubTest]:
        """The tests that stand side by side."""
        return self.picture.tests_of(self.test.slot) if self.picture and self.test else ()

    @property
    def entry(self) -> Line:
        """The line that takes the shots."""
        return self.query_one("#entry", Line)

    # showing

    def trail(self) -> tuple[str, ...]:
        picture, test = self.picture, self.test
        if picture is None:
            return (safe(self.player_name), "no session yet")
        day = "today" if picture.is_today else picture.name[:10]
        place = safe(picture.record.place) if picture.record.place else ""
        count = f"session {picture.number} of {picture.sessions}"
        return tuple(filter(None, (safe(self.player_name), test.slot if test else "", day, place, count)))

    def _show(self) -> None:
        self._show_beside()
        self._show_shots()
        self._show_picture()
        self._show_asked(self.entry.value)

    def _shape(self, test: ClubTest) -> str:
        if test.role == REFERENCE:
            return SHAPES[0]
        candidates = [each.id for each in self._tests() if each.role != REFERENCE]
        return SHAPES[1 + candidates.index(test.id) % (len(SHAPES) - 1)] if test.id in candidates else SHAPES[1]

    def _show_beside(self) -> None:
        pad = self.query_one("#beside", Pad)
        if not self.picture or not self.test:
            pad.show(
                line(
                    ("no test yet; ", "$ink-muted"),
                    ("^n", "bold $ink-accent"),
                    (" sets up a candidate as the bag's club, but …", "$ink-muted"),
                )
            )
            return
        columns = self.columns
        sides = [
            side_of(
                each,
                self.shots.get(each.id, []),
                self._shape(each),
                self.picture.said[each.id],
                columns,
                self.house.units,
                each.id == self.test_id,
            )
            for each in self._tests()
        ]
        units = self.house.units
        names = ["shots", *(f"{label(key)} {units.name(key)}".strip() for key in columns), "verdict"]
        rows = 3 if self.has_class("-high") else 2
        pad.show(beside(names, sides, max(pad.size.width - 3, 60), rows))

    def _show_shots(self) -> None:
        rows = self.query_one("#shots", Rows)
        units, columns = self.house.units, self.columns
        heads = [Column("", 3, right=True)]
        heads += [Column(f"{_short(label(key))}", 8, right=True) for key in columns]
        heads.append(Column("feel", 8, grow=1))
        shots = self.shots.get(self.test_id, [])
        shown = []
        for number, shot in enumerate(shots, start=1):
            tone = "muted" if shot.excluded else ""
            cells: list[Cell] = [(str(number), "muted")]
            cells += [(units.text(key, getattr(shot, key)), tone) for key in columns]
            note = f"× left out: {shot.excluded}" if shot.excluded else shot.feel or ""
            cells.append((safe(note), "warn" if shot.excluded else "muted"))
            shown.append(Row(shot.id or str(number), cells))
        longer = len(shown) > len(rows.rows)
        rows.show(shown, heads)
        if longer:
            rows.action_move(len(shown))

    def _show_picture(self) -> None:
        picture = self.query_one("#picture", Static)
        clusters = [
            cluster_of(self.shots.get(each.id, []), self._shape(each), self.house.units, each.id == self.test_id)
            for each in self._tests()
        ]
        width, height = picture.size.width, picture.size.height
        if width and height:
            picture.update(
                Content("\n").join(scatter(clusters, width - 2, height, self.house.units.name("carry_yd")))
            )

    def _show_asked(self, text: str) -> None:
        """The columns above the line; the one that comes next stands out."""
        test = self.test
        asked, prompt = self.query_one("#asked", Static), self.query_one("#prompt", Static)
        prompt.update(line((f"{self._shape(test)} {test.id} ›" if test else "›", "bold $ink-accent")))
        if test is None:
            asked.update("")
            return
        typed = len(text.split()) - (1 if text and not text.endswith(" ") else 0)
        pieces: list[Piece] = [("   ", "")]
        for number, key in enumerate(self.columns):
            name = f"{label(key)} {self.house.units.name(key)}".strip()
            here = number == typed
            pieces += [(("▾" if here else " ") + name, "bold $ink-accent" if here else "$ink-muted"), (" ", "")]
        if typed >= len(self.columns):
            pieces.append((" ▾feel, in words", "bold $ink-accent"))
        asked.update(line(*pieces))

    def on_resize(self) -> None:
        if self.is_mounted:
            self.call_after_refresh(self._show)

    # typing

    def _purpose(self) -> str:
        return f"shot {self.player} {self.where}"

    def _stand_on(self, test: str) -> None:
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
        self._show_asked(event.value)

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
        if len(texts) == 1:
            self.entry.value = ""
        self._show()
        if odd := [each for values in shots for each in suspicious(values)]:
            self.notice("logged, but look: " + "; ".join(odd), "note")

    def _values(self, text: str) -> dict[str, Any]:
        values = self.house.units.into(parse_entry(text, self.columns))
        check_shot(values)
        return values

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
            self._stand_on(names[(names.index(self.test_id) + by) % len(names)])
            self._show()

    def can(self, command: str) -> bool:
        if command in ("take_back", "leave_out", "shoot"):
            return bool(self.shots.get(self.test_id)) or command == "shoot"
        if command in ("file", "columns", "decide"):
            return self.test is not None
        if command == "candidate":
            return bool(self.slot)
        return super().can(command)

    def do_take_back(self) -> None:
        """Take back the last shot."""
        where, shots = self.where, self.shots.get(self.test_id, [])
        said = " ".join(shot_line(shots[-1], self.columns)) if shots else ""

        def work(desk: Desk) -> "Done":
            from fitlog.actions.tests import take_back_shot

            return take_back_shot(desk, self.player, where)

        def then(done: "Done") -> None:
            self.notice(f"{done.subject}: {said}; the history keeps it")
            self.load()

        self.ask(work, then, urgency=ASKED)

    def do_leave_out(self) -> None:
        """Leave the marked shot out, or count it again."""
        from fitlog.tui.dialogs.deeds import leave_out

        key = self.query_one("#shots", Rows).key
        shot = next((each for each in self.shots.get(self.test_id, []) if each.id == key), None)
        if shot is not None:
            said = "  ".join(
                f"{label(name)} {value}"
                for name, value in zip(self.columns, shot_line(shot, self.columns), strict=True)
            )
            self.app.push_screen(leave_out(self.player, self.where, shot.id, said, not shot.excluded))

    def do_candidate(self) -> None:
        """Another candidate for the same slot."""
        from fitlog.tui.dialogs.change import NewCandidate

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
            from fitlog.actions.tests import start_test

            return start_test(desk, self.player, self.slot, role=REFERENCE)

        self.ask(work, lambda started: self._made(started.ref), urgency=ASKED)

    def do_columns(self) -> None:
        """Which numbers are typed."""
        from fitlog.tui.dialogs.columns import Columns

        self.app.push_screen(Columns(self.player, self.session, self.columns), self._other_columns)

    def _other_columns(self, changed: bool | None) -> None:
        if changed:
            self._columns = ("", ())
            self.load()

    def do_file(self) -> None:
        """Shots from a file."""
        from fitlog.tui.dialogs.importfile import ImportFile

        self.app.push_screen(ImportFile(self.player, self.where), lambda _: self.load())

    def do_decide(self) -> None:
        """The verdict on the marked test, or on the one that waits."""
        from fitlog.tui.screens.verdict import VerdictPage

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
        self._read(by)

    def do_back(self) -> None:
        self.ask(_end_shots)
        super().do_back()


def _order(page: SessionPage, test: ClubTest) -> tuple[bool, str, bool]:
    """The slot that is tested now first, its reference before its candidates."""
    here = page.test
    return (here is None or test.slot != here.slot, test.slot, test.role != REFERENCE)


def _short(name: str) -> str:
    return name if len(name) <= 8 else name.split(maxsplit=1)[0][:8]


def _end_shots(desk: Desk) -> None:
    from fitlog.actions.tests import end_shots

    end_shots(desk)


def _warm(clerk: Any) -> Any:
    """Have git and the editor of files loaded before the first shot is typed."""

    def work(_: Desk) -> None:
        import tomlkit  # noqa: F401

        with clerk.typing:
            clerk.typist.history.head()

    return work
