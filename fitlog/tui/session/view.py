"""Draw a session: tests side by side, shots, where they landed, the line."""

from collections.abc import Sequence

from rich.cells import cell_len
from textual.containers import Container
from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from fitlog.tui.session import text
from fitlog.tui.session.criteria_row import criteria_rows, reason_rows
from fitlog.tui.session.side_by_side import side_by_side
from fitlog.tui.session.state import SessionState
from fitlog.tui.text.numbers import head_of
from fitlog.tui.text.sanitize import safe, wrap
from fitlog.tui.text.units import Units
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.picture import Picture
from fitlog.tui.widgets.rows import Rows
from fitlog.tui.widgets.scroll_text import ScrollText, line, lines
from fitlog.tui.widgets.shot_plot import plot_landings
from fitlog.views.session.blind import HIDDEN

_CRITERIA_ROWS = 3
_FEWEST_MEANS = 3  # of a low screen
_LAST_SHOTS, _OTHER_ROWS = 6, 6  # of a low screen: those in view; rows of what is neither shots, tests nor criteria
_PICTURE, _NARROW = 26, 34  # cells of a picture: at least, and where the screen is narrow at most


class SessionView:
    """The widgets of a session's screen, and what they show of its state."""

    def __init__(self, screen: Screen[None], state: SessionState) -> None:
        self._screen, self._state = screen, state
        self.entry = Line(id="entry", commands='?<>=!*@&%$|"~)]\\', several=True)
        self.shots = Rows((), id="shots", empty="", follows_input=True)
        self._tests = ScrollText(id="beside")
        self._criteria = Static("", id="criteria", markup=False)
        self._picture = Picture(id="picture")
        self._columns = Static("", id="asked", markup=False)
        self._prompt = Static("", id="prompt", markup=False)

    def widgets(self) -> Sequence[Widget]:
        """What stands on the screen."""
        return (
            self._tests,
            self._criteria,
            Container(self.shots, self._picture, id="below"),
            self._columns,
            Container(self._prompt, self.entry, id="type"),
        )

    def show(self, units: Units) -> None:
        """Bring all of it up to date."""
        self._show_tests(units)
        self.show_criteria()
        self.show_shots(units)
        self._show_picture(units)
        self.show_columns(self.entry.value, units)

    def _show_tests(self, units: Units) -> None:
        state = self._state
        if not state.overview or not state.test:
            self._tests.show(text.without_test(state.slot, bool(state.tests)))
            return
        hides_all = all(each.id in state.hidden_tests for each in state.tests_of_slot)
        columns = () if hides_all else state.columns
        if self._screen.has_class("-low"):  # there may be no room for the last of them
            columns = tuple(text.weightiest_first(columns, state.judged_metrics))
        described = state.overview.descriptions
        sides = text.sides(state.tests_of_slot, state.shots, described, columns, units, state.test_id)
        sides = text.hide(sides, state.tests_of_slot, state.hidden_tests, state.codes)
        names = ["shots", *(head_of(key, units) for key in columns), "verdict"]
        setup_rows = 3 if self._screen.has_class("-high") else 2
        rows = side_by_side(names, sides, max(self._tests.size.width - 3, 60), setup_rows)
        if self._screen.has_class("-low"):
            spare = len(rows) - self._rows_beside()
            fewest = len(columns) - min(len(columns), _FEWEST_MEANS)
            del rows[-1 - min(max(spare, 0), fewest) : -1]  # the verdict stays
        if hides_all:
            rows.insert(len(rows) - 1, line((f"{'results':<15}", "$ink-muted"), (HIDDEN, "$ink-muted")))
        if planned := state.next_in_plan or state.next_cell:
            rows.insert(0, line((safe(planned), "bold $ink-accent")))
        self._tests.show(rows)

    def _rows_beside(self) -> int:
        """Rows for the tests side by side on a low screen; the last shots stay in view."""
        test = self._state.criteria_test
        to_come = min(len(test.criteria), _CRITERIA_ROWS) if test else 0  # they are judged a moment later
        criteria = max(len(self._criteria_rows()), to_come)
        return self._screen.size.height - _OTHER_ROWS - _LAST_SHOTS - criteria

    def show_criteria(self) -> None:
        """Show the criteria as they stand and why a test was decided, always in view."""
        rows = self._criteria_rows()
        self._criteria.display = bool(rows)
        self._criteria.update(lines(rows))

    def _criteria_rows(self) -> list[Content]:
        state = self._state
        test, here = state.criteria_test, state.test
        room = max(self._screen.size.width, 40) - 2
        rows = []
        if test is not None:
            letter = state.name_of(test).removeprefix("candidate").strip()  # of one among several
            about = "criteria" if test.id == state.test_id else f"criteria {letter}".strip()
            rows = criteria_rows(about, state.judgements.get(test.id, ()), room, _CRITERIA_ROWS)
        if here is not None and here.verdict and not state.is_blind:
            rows += reason_rows(here.verdict.decision.ljust(len("criteria")), here.verdict.reason, room)
        return rows

    def _share_width(self, units: Units, feel: int) -> int:
        """Give the table the room for its columns; returns its width."""
        width = max(self._screen.size.width, 40)
        table = text.table_width(self._state.columns, units, feel) + 1
        picture = width - max(table, width // 2)
        if self._screen.has_class("-narrow"):
            picture = min(picture, _NARROW)
        else:  # a long feel goes under its shot rather than make the picture small
            picture = max(picture, min(width - text.table_width(self._state.columns, units, 0) - 1, width // 3))
        self._picture.display = picture >= _PICTURE
        self._picture.styles.width = max(picture, _PICTURE)
        return width - picture if picture >= _PICTURE else width

    def show_shots(self, units: Units) -> None:
        """Show the marked test's shots."""
        rows, state = self.shots, self._state
        noted = [] if state.test_id in state.hidden_tests else state.marked_shots
        feel = max((cell_len(shot.feel or shot.excluded or "") for shot in noted), default=0)
        is_high = self._screen.has_class("-high")
        visible, heads = text.shot_columns(state.columns, units, self._share_width(units, feel) - 1, feel, is_high)
        below = tuple(key for key in state.columns if key not in visible)
        has_feel = any(each.title == text.FEEL for each in heads)
        rows.empty = "no shot yet: type the first one below" if state.test else ""
        shots = state.marked_shots
        is_longer = len(shots) > len(rows.rows)
        if state.test_id in state.hidden_tests:
            found = [text.hidden_row(number, shot, visible) for number, shot in enumerate(shots, 1)]
        else:
            found = [
                text.shot_row(number, shot, visible, units, state.questions.get(str(shot.id), ""), below, has_feel)
                for number, shot in enumerate(shots, 1)
            ]
        rows.show(found, heads)
        if is_longer and not state.is_marked_by_hand:
            rows.action_move(len(shots))

    def _show_picture(self, units: Units) -> None:
        state = self._state
        pictured = text.pick_tests(state.tests_of_slot, state.test_id)
        here = next((n for n, each in enumerate(pictured) if each and each.id == state.test_id), 0)
        here = 0 if state.is_blind else here
        hidden = state.hidden_tests
        if hidden and all(each is None or each.id in hidden for each in pictured):
            self._picture.show(lambda width, _: [line((each, "$ink-muted")) for each in wrap(HIDDEN, width - 2)])
            return
        series = text.all_series(
            pictured, lambda test: () if test.id in hidden else state.shots.get(test.id, ()), units
        )
        unit = units.unit("carry_yd")
        self._picture.show(lambda width, height: plot_landings(series, width - 2, height, unit, here))

    def show_columns(self, entry: str, units: Units) -> None:
        """Show the columns above the line; the one that comes next stands out."""
        state = self._state
        test = state.test
        mark = text.mark_of(test, text.pick_tests(state.tests_of_slot, state.test_id)) if test else ""
        code = state.codes.get(test.id, "") if test and test.id in state.hidden_tests else ""
        slot, name = test.slot if test else "", code or state.test_name
        name += f" of {state.other_day}" if name and state.other_day else ""
        self._prompt.update(text.prompt(mark, slot, name, state.place_of_correction, bool(code)))
        if test is None:
            self._columns.update("")
            return
        count = len(entry.split()) - (1 if entry and not entry.endswith(" ") else 0)
        self._columns.update(text.column_prompt(state.columns, count, units, max(self._screen.size.width, 40)))

    def trail(self) -> tuple[str, ...]:
        """Where one is, for the top row."""
        state = self._state
        overview, test = state.overview, state.test
        if overview is None:
            return (safe(state.player_name), "no session yet")
        day = "today" if overview.is_today else overview.name[:10]
        place = safe(overview.record.place) if overview.record.place else ""
        count = f"session {overview.number} of {overview.sessions}"
        return tuple(filter(None, (safe(state.player_name), test.slot if test else "", day, place, count)))
