"""When a command of the session's screen works, and why it does not."""

from fitlog.records.models.session import CANDIDATE
from fitlog.records.wording.plurals import format_count
from fitlog.tui.base.commands.command import Availability, needs
from fitlog.tui.session.state import SessionState

_BLIND = "this plan is blind: the candidate is not named until its planned shots are hit"


class CommandRules:
    """What each command needs of the state."""

    def __init__(self, state: SessionState) -> None:
        self._state = state

    def has_club(self) -> Availability:
        """A club is chosen."""
        return needs(self._state.slot, self._state.without_test)

    def has_session(self) -> Availability:
        """A session was read."""
        return needs(self._state.overview, self._state.without_test)

    def has_test(self) -> Availability:
        """A test is marked."""
        return needs(self._state.test, self._state.without_test)

    def has_shots(self) -> Availability:
        """The marked test has a shot."""
        if self._state.test is None:
            return self.has_test()
        return needs(self._state.marked_shots, "this test has no shot yet")

    def is_decided(self) -> Availability:
        """The marked test is decided."""
        if self._state.test is None:
            return self.has_test()
        return needs(self._state.test.verdict, "this test is not decided yet; go on hitting in it")

    def is_candidate(self) -> Availability:
        """The marked test is known to be a candidate."""
        if self._state.test is None:
            return self.has_test()
        if self._state.is_blind:
            return needs(False, _BLIND)
        return needs(self._state.test.role == CANDIDATE, "a reference has no criteria; tab goes to the candidate")

    def can_guess(self) -> Availability:
        """A guess can be noted: of a candidate, before its first shot."""
        test, shots = self._state.test, self._state.marked_shots
        if test is None:
            return self.has_test()
        if self._state.is_blind:
            return needs(False, _BLIND)
        if test.role != CANDIDATE:
            return needs(False, "a guess is for a candidate; tab goes to one")
        count = format_count(len(shots), "shot")
        return needs(not shots, f"a guess is noted before the first shot; this test has {count} already")

    def can_plan(self) -> Availability:
        """A plan can be made: before the first shot."""
        if self._state.test is None:
            return self.has_test()
        hit = any(self._state.shots.get(each.id) for each in self._state.tests_of_slot)
        return needs(not hit, "shots were hit already; a plan is made before the first")
