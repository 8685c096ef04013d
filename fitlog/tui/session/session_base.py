"""What a session's screen knows and shows: tests side by side, the marked one's shots, where they landed."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.containers import Container
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.session import ClubTest, Shot, ref
from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk
from fitlog.tui.base import pages
from fitlog.tui.base.page import Page
from fitlog.tui.base.worker import ASKED, Work
from fitlog.tui.session import text as sessiontext
from fitlog.tui.session.side_by_side import beside
from fitlog.tui.text.numbers import head_of
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText, line
from fitlog.tui.widgets.shot_plot import landing
from fitlog.views.session.columns import columns_of

if TYPE_CHECKING:
    from fitlog.tui.base.worker import Worker
    from fitlog.views.session.overview import SessionOverview


class SessionBase(Page):
    """One session of one player, as it is read and shown."""

    kind = pages.SESSION
    about = sessiontext.ABOUT
    has_entry = True

    def __init__(self, player: str, session: str = "", test: str = "", slot: str = "") -> None:
        super().__init__(player)
        self.player_name = player
        self.session = session
        self.test_id = test
        self._slot = slot
        self.picture: SessionOverview | None = None
        self.shots: dict[str, list[Shot]] = {}
        self.line_told = False
        self._columns: tuple[str, tuple[str, ...]] = ("", ())

    def body(self) -> Sequence[Widget]:
        shots = Rows((), id="shots", empty="no shot yet: type the first one below", follows_input=True)
        return (
            ScrollText(id="beside"),
            Container(shots, Static("", id="picture", markup=False), id="below"),
            Static("", id="asked", markup=False),
            Container(
                Static("", id="prompt", markup=False), Line(id="entry", commands="?<>=!*@", several=True), id="type"
            ),
        )

    # reading

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, [self.player], self.player, self.session)

    def load(self) -> None:
        self.read(0)
        self.count_pending()

    def read(self, by: int) -> None:
        """Read this session, or the one so many places on."""

        def work(desk: Desk) -> "tuple[str, SessionOverview | None]":
            from fitlog.views.session.overview import session_overview

            name = desk.workspace.player(self.player).name
            return name, session_overview(desk, self.player, self.session, by)

        self.ask(work, self._loaded, group="session")

    def _loaded(self, found: "tuple[str, SessionOverview | None]") -> None:
        from fitlog.views.session.overview import choose_test

        self.player_name, picture = found
        other = picture is None or picture.name != self.session
        self.picture = picture
        if picture is not None:
            self.session = picture.name
            self.shots = {test.id: list(test.shots) for test in picture.record.test}
            before, self.test_id = self.test_id, choose_test(picture, self.test_id, self._slot)
            other = other or before != self.test_id or not self.line_told
        self.stamp = self.read_stamp()
        if other:
            self.stand_on(self.test_id)
        self.show()
        self.show_state()
        self.ask(_warm(self.services.worker, self.player, self.session), urgency=ASKED)

    def stand_on(self, test: str) -> None:
        """Mark a test."""
        self.test_id = test

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

    def beside_it(self) -> Sequence[ClubTest]:
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

    def show(self) -> None:
        """Bring all of it to what is so now."""
        self._show_beside()
        self._show_shots()
        self.call_after_refresh(self._show_picture)
        self.show_asked(self.entry.value)

    def _show_beside(self) -> None:
        pad = self.query_one("#beside", ScrollText)
        if not self.picture or not self.test:
            key, does = ("^n", " sets up a candidate as the bag's club, but …")
            if not self.slot:
                key, does = "esc", " goes back to the bag, where a club is chosen to test; + adds one"
            pad.show(line(("no test yet; ", "$ink-muted"), (key, "bold $ink-accent"), (does, "$ink-muted")))
            return
        units, columns = self.services.units, self.columns
        if self.has_class("-low"):  # the picture needs the rows
            columns = tuple(sessiontext.weightiest_first(columns)[:3])
        texts = self.picture.descriptions
        tests = sessiontext.sides(self.beside_it(), self.shots, texts, columns, units, self.test_id)
        names = ["shots", *(head_of(key, units) for key in columns), "verdict"]
        pad.show(beside(names, tests, max(pad.size.width - 3, 60), 3 if self.has_class("-high") else 2))

    def _show_shots(self) -> None:
        rows = self.query_one("#shots", Rows)
        units = self.services.units
        shown, heads = sessiontext.shot_columns(self.columns, units, max(rows.outer_size.width - 1, 40))
        rows.empty = "no shot yet: type the first one below" if self.test else ""
        shots = self.shots.get(self.test_id, [])
        longer = len(shots) > len(rows.rows)
        rows.show([sessiontext.shot_row(number, shot, shown, units) for number, shot in enumerate(shots, 1)], heads)
        if longer:
            rows.action_move(len(shots))

    def _show_picture(self) -> None:
        picture = self.query_one("#picture", Static)
        width, height = picture.size.width - 2, picture.size.height
        if width <= 0 or not height:
            return
        units = self.services.units
        pictured = sessiontext.drawn(self.beside_it(), self.test_id)
        here = next((n for n, each in enumerate(pictured) if each and each.id == self.test_id), 0)
        series = sessiontext.all_series(pictured, lambda test: self.shots.get(test.id, ()), units)
        picture.update(Content("\n").join(landing(series, width, height, units.unit("carry_yd"), here)))

    def show_asked(self, text: str) -> None:
        """The columns above the line; the one that comes next stands out."""
        test = self.test
        shown, prompt = self.query_one("#asked", Static), self.query_one("#prompt", Static)
        mark = sessiontext.mark_of(test, sessiontext.drawn(self.beside_it(), self.test_id)) if test else ""
        prompt.update(line((f"{mark} {test.id} ›" if test else "›", "bold $ink-accent")))
        if test is None:
            shown.update("")
            return
        typed = len(text.split()) - (1 if text and not text.endswith(" ") else 0)
        shown.update(sessiontext.asked(self.columns, typed, self.services.units, max(self.size.width, 40)))

    def on_resize(self) -> None:
        if self.is_mounted:
            self.call_after_refresh(self.show)


def _warm(worker: "Worker", player: str, session: str) -> Work:
    """Have git and the session's file at hand before the first shot is typed."""

    def work(desk: Desk) -> None:
        from fitlog.saving.save import document
        from fitlog.workspace.files import read_bytes
        from fitlog.workspace.layout import session_file

        name = session_file(player, session)
        data = read_bytes(desk.root, name) if session else None
        with worker.typing:
            worker.typist.history.head()
            if data is not None:
                worker.typist.documents[name] = (data, document(worker.typist, name, data))

    return work
