"""What goes onto a day sheet: every player's tests of one date."""

from datetime import date
from typing import NamedTuple

from fitlog.records.errors import BrokenFile
from fitlog.records.models.player import Player
from fitlog.records.models.session import ClubTest, Session
from fitlog.records.models.settings import UnitChoices
from fitlog.saving.desk import Desk
from fitlog.views.evidence.presentation import BLIND
from fitlog.views.sheets.verdict_sheet import describe_differences
from fitlog.views.verdict.evidence import Evidence, compare


class DayTest(NamedTuple):
    """One candidate of the day: what was tried, its results, and any verdict."""

    evidence: Evidence
    differences: tuple[str, ...]

    @property
    def test(self) -> ClubTest:
        """The candidate."""
        return self.evidence.test


class Visit(NamedTuple):
    """One player's session of the day."""

    player_id: str
    player: Player
    session_id: str
    session: Session
    tests: tuple[DayTest, ...]


class DaySheet(NamedTuple):
    """All sessions of a date. ``broken`` names the files that could not be read."""

    day: date
    workspace: str
    units: UnitChoices
    visits: tuple[Visit, ...]
    left_out: bool
    broken: tuple[str, ...]


def day_sheet(desk: Desk, day: date | None = None) -> DaySheet:
    """Every player's tests of a date (today by default), but for ``left_out``."""
    on = day or desk.now().date()
    visits: list[Visit] = []
    broken: list[str] = []
    left_out = False
    for player in desk.workspace.players():
        names = [each for each in desk.workspace.sessions(player) if each.startswith(on.isoformat())]
        if not names:
            continue
        try:
            record = desk.workspace.player(player)
        except BrokenFile as fault:  # without its file nobody knows whether the player may be shown
            broken += [str(each) for each in fault.problems]
            continue
        if record.left_out:
            left_out = True
            continue
        for name in names:
            try:
                visits.append(_visit(desk, player, record, name))
            except BrokenFile as fault:
                broken += [str(each) for each in fault.problems]
    visits.sort(key=lambda visit: (str(visit.session.started or ""), visit.player.name))
    settings = desk.workspace.settings_at_hand()
    broken += [desk.workspace.settings_fault] if desk.workspace.settings_fault else []
    return DaySheet(on, settings.name, settings.units, tuple(visits), left_out, tuple(broken))


def _visit(desk: Desk, player: str, record: Player, name: str) -> Visit:
    found = compare(desk, player, name)
    tests = tuple(DayTest(each, _differences(each)) for each in found.tests)
    return Visit(player, record, name, found.record, tests)


def _differences(each: Evidence) -> tuple[str, ...]:
    return (BLIND,) if each.is_blind else describe_differences(each.test, each.reference, each.units)
