"""The line that takes the shots: log, correct, or bring one back."""

import json
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from textual.widgets import Input

from fitlog.edits.tests import refuse_decided
from fitlog.records.entry.shot_line import parse_shot_line
from fitlog.records.errors import FitlogError
from fitlog.records.models.session import MEASURES, Shot
from fitlog.saving.desk import Desk, refuse_past
from fitlog.tui.base.page import Page
from fitlog.tui.base.work.worker import IDLE
from fitlog.tui.session.state import SessionState
from fitlog.tui.session.text import format_line
from fitlog.tui.session.view import SessionView
from fitlog.views.session.questions import question_shots

if TYPE_CHECKING:
    from fitlog.saving.save import SaveResult

_WAITING_S = 0.35
_ASKS = "⏎ it is right, ^x corrects it"


class ShotEntry:
    """What Enter does on the line of a session's screen."""

    def __init__(self, page: Page, state: SessionState, view: SessionView) -> None:
        self._page, self._state, self._view = page, state, view
        self._other_day = ""  # the session of another day that was named to the person

    @property
    def purpose(self) -> str:
        """The name that the line's text is kept under."""
        return f"shot {self._state.player} {self._state.test_ref}"

    def fill(self) -> None:
        """Put what was typed for the marked test and not logged into the line."""
        self._state.corrected_id = ""
        self._set_line(self._page.services.draft(self.purpose))

    def note_typed(self, text: str) -> None:
        """Keep what is typed, and show which number comes next."""
        if not self._state.corrected_id:
            self._page.services.keep_draft(self.purpose, text)
        self._view.show_columns(text, self._page.services.units)

    def submit(self, text: str) -> None:
        """Log the typed shot or save the correction; an empty line corrects one."""
        state = self._state
        if state.test is None:
            return
        if state.corrected_id:
            self._save_correction(text)
        elif text.strip():
            if self.log([text]):
                self._set_line("")
                self._page.services.keep_draft(self.purpose, "")
        elif not self._bring_back():
            if state.is_marked_by_hand:
                self.correct(self._view.shots.key)
            else:
                self._confirm_asked()

    def log(self, texts: Sequence[str]) -> bool:
        """Log shots: on disk when this returns True, and saved in their turn."""
        try:
            values = [self._parse(text) for text in texts]
        except FitlogError as error:
            self._page.notice(str(error), "trouble")
            return False
        self._state.is_marked_by_hand = False
        return self.log_values(values, texts)

    def _note_other_day(self) -> str:
        """Say once that shots are typed into a session of another day.

        They may be copied from paper, or it is a slip.
        """
        overview = self._state.overview
        if overview is None or overview.is_today or self._other_day == overview.name:
            return ""
        self._other_day = overview.name
        return f"logged into the session of {overview.name[:10]}; ^t takes it back, ^r begins a test of today"

    def log_values(self, values: Sequence[Mapping[str, Any]], texts: Sequence[str] = ()) -> bool:
        """Log shots by their values; ``texts`` is how they were typed."""
        state, services = self._state, self._page.services
        test = state.test
        if test is None:
            return False
        texts = texts or [format_line(Shot(**each), state.columns, services.units) for each in values]
        try:
            refuse_past(services.desk)
            refuse_decided(test.raw, state.test_ref)
            shots = state.identify(values, services.desk.draw, services.desk.now().time())
            services.shot_queue.log(state.player, state.test_ref, shots, texts)
        except FitlogError as error:
            self._page.notice(str(error), "trouble")
            return False
        questions, off_plan = [], state.off_plan
        for shot in shots:
            state.add(state.test_id, [Shot(**shot)])
            questions += self._question(str(shot["id"]))
        self._page.notice("")
        self._show()
        self._page.set_timer(_WAITING_S, self._page.show_state)
        other_day = self._note_other_day()
        other_club = f"logged, but {off_plan}; ^t takes it back, tab goes on" if off_plan else ""
        if questions:
            lead = other_day or other_club or "logged"
            self._page.notice(f"{lead}; {_ASKS}: {'; '.join(questions)}", "note")
        elif other_day:
            self._page.notice(other_day, "trouble")
        elif other_club:
            self._page.notice(other_club, "note")
        return True

    # what looks wrong

    def _question(self, shot_id: str) -> list[str]:
        """What looks wrong in a shot, from now on asked about.

        The shot is judged by itself and beside this club's others.
        """
        state = self._state
        found = question_shots(
            state.marked_shots, state.other_shots, self._page.services.units, [shot_id], bool(state.hidden_tests)
        )
        # every shot that is asked about: Enter and ^x answer for this one, not for one before it
        state.questions |= {each: texts[0] for each, texts in found.items()}
        state.last_asked = shot_id if found else state.last_asked
        return found.get(shot_id, [])

    def question_all(self) -> None:
        """Find what looks wrong in the marked test's shots, off the app's thread.

        What was confirmed is right.
        """
        state, units, test = self._state, self._page.services.units, self._state.test
        if test is None:
            return
        if (key := (test.slot, test.swing_name)) not in state.usual_shots:
            state.usual_shots[key] = ()
            self._read_usual(key)
            return
        shots, others, is_hidden = tuple(state.marked_shots), tuple(state.other_shots), bool(state.hidden_tests)

        def work(_: Desk) -> dict[str, list[str]]:
            return question_shots(shots, others, units, is_hidden=is_hidden)

        def then(remarks: dict[str, list[str]]) -> None:
            right = self._confirmations(state.test_ref)
            for each in shots:
                state.questions.pop(str(each.id), None)
                if str(each.id) in remarks and right.get(str(each.id)) != _values(each):
                    state.questions[str(each.id)] = remarks[str(each.id)][0]
            self._view.show_shots(units)

        self._page.ask(work, then, lambda _: None, "questions", IDLE)

    def _read_usual(self, key: tuple[str, str]) -> None:
        """Read the player's earlier shots with a slot and swing, then ask."""

        def work(desk: Desk) -> Sequence[Shot]:
            from fitlog.views.session.usual_shots import usual_shots

            return usual_shots(desk, self._state.player, *key)

        def then(shots: Sequence[Shot]) -> None:
            self._state.usual_shots[key] = shots
            self.question_all()

        self._page.ask(work, then, lambda _: self.question_all(), urgency=IDLE)

    def _confirm_asked(self) -> None:
        """Confirm the shot asked about last; of an earlier one, say first what is odd."""
        state, shot_id = self._state, self._state.questioned_shot
        shot = next((each for each in state.marked_shots if each.id == shot_id), None)
        if shot is None:
            return
        if state.last_asked != shot_id:
            state.last_asked = shot_id
            place = state.marked_shots.index(shot) + 1
            self._page.notice(f"shot {place}: {_ASKS}: {state.questions[shot_id]}", "note")
            return
        state.questions.pop(shot_id)
        right = {**self._confirmations(state.test_ref), shot_id: _values(shot)}
        self._page.services.keep_draft(f"right {state.player} {state.test_ref}", json.dumps(right))
        self._page.notice("it stands as it was typed")
        self._show()

    def _confirmations(self, test_ref: str) -> dict[str, list[float]]:
        """The shots of a test confirmed as right, with the values they had then."""
        try:
            found = json.loads(self._page.services.draft(f"right {self._state.player} {test_ref}") or "{}")
        except ValueError:  # a draft cut short by a pulled plug
            return {}
        return found if isinstance(found, dict) else {}

    # correcting

    def correct(self, shot_id: str) -> None:
        """Put a shot into the line, to be corrected in place."""
        state = self._state
        shot = next((each for each in state.marked_shots if each.id == shot_id), None)
        if shot is None:
            return
        state.corrected_id = shot_id
        self._set_line(format_line(shot, state.columns, self._page.services.units))
        self._view.entry.action_select_all()
        self._page.notice("the shot is in the line: type it again, or change it; ⏎ saves it, esc leaves it", "note")
        self._show()

    def cancel(self) -> None:
        """Leave the shot as it is."""
        self.fill()
        self._show()

    def _save_correction(self, text: str) -> None:
        state = self._state
        shot_id, test_ref = state.corrected_id, state.test_ref
        before = next((each for each in state.marked_shots if each.id == shot_id), None)
        if before is None or not text.strip():
            self._page.notice("a shot keeps a number; ^o leaves it out, esc leaves it as it is", "trouble")
            return
        try:
            values = self._parse(text)
        except FitlogError as error:
            self._page.notice(str(error), "trouble")
            return
        unseen = [key for key in MEASURES if key not in state.columns and getattr(before, key) is not None]
        values = {**{key: getattr(before, key) for key in unseen}, **values}

        def work(desk: Desk) -> "SaveResult":
            from fitlog.actions.session.shots import correct_shot

            return correct_shot(desk, state.player, test_ref, shot_id, values)

        def then(result: "SaveResult") -> None:
            state.questions.pop(shot_id, None)
            state.replace(state.test_id, Shot(**{**before._asdict(), **dict.fromkeys(MEASURES), **values}))
            self.fill()
            self._page.notice(f"{result.subject}; the history keeps what it was")
            if still := self._question(shot_id):
                state.is_marked_by_hand = False  # Enter answers the question
                self._page.notice(f"{result.subject}; {_ASKS}: {'; '.join(still)}", "note")
            self._page.load()

        self._page.save(work, then)

    # one that cannot be saved

    def _bring_back(self) -> bool:
        """Bring a shot that cannot be saved to the line; returns whether one was."""
        state, queue = self._state, self._page.services.shot_queue
        waiting = queue.queued_shots(state.player, state.test_ref)
        if not waiting or not queue.reason:
            return False
        queue.take_back(waiting[0])
        state.remove(state.test_id, str(waiting[0].shot["id"]))
        self._set_line(waiting[0].text)
        self._page.services.keep_draft(self.purpose, waiting[0].text)
        self._show()
        return True

    def _parse(self, text: str) -> dict[str, Any]:
        return parse_shot_line(text, self._state.columns, self._page.services.units.shot)

    def _set_line(self, text: str) -> None:
        entry = self._view.entry
        with self._page.prevent(Input.Changed):  # what comes of a change by hand would wipe out a notice
            entry.value = text
        entry.cursor_position = len(text)
        self._view.show_columns(text, self._page.services.units)

    def _show(self) -> None:
        self._view.show(self._page.services.units)


def _values(shot: Shot) -> list[float]:
    """The numbers of a shot: a confirmation holds for these alone."""
    return [value for key in MEASURES if (value := getattr(shot, key)) is not None]
