"""A search for the change to blame: changes, what steps told, what is next."""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from fitlog.coherence.club.suspects import Suspect, Suspects, revert_changes, suspects
from fitlog.evidence.comparison.bisection import (
    OPEN,
    REGAINED,
    Answer,
    Likelihoods,
    answer_over_days,
    likelihoods,
    next_setup,
    shift_of_days,
)
from fitlog.evidence.shots.wording import difference_sentence
from fitlog.history.timeline.restore_points import LAST_PROVEN, clubs_of, find_revision, last_proven
from fitlog.records.errors import FitlogError, Refusal, UsageError
from fitlog.records.models.bag import CLUB_KEYS, Club, choose_club, club_setup
from fitlog.records.models.change_search import ChangeSearch, Regain
from fitlog.records.models.session import ref
from fitlog.records.models.setup import setup_of
from fitlog.records.naming.refs import ClubRef
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.plurals import format_count
from fitlog.saving.desk import Desk
from fitlog.views.session.blind import hidden_in
from fitlog.views.verdict.evidence import display_units, readings
from fitlog.workspace.layout import bag_file

NONE_OF_THESE = "none of these"


class SearchStart(NamedTuple):
    """What a search begins with: the club then and now, and the changes between."""

    club: Club
    good: str
    then: Mapping[str, Any]
    now: Mapping[str, Any]
    suspects: Suspects
    notes: tuple[str, ...]


class Step(NamedTuple):
    """One setup that was hit, on some days: what it took back, and its result.

    ``ref`` is the test of the last day, ``days`` the tests of all.
    """

    ref: str
    reverted: tuple[str, ...]
    shots: int
    reference_shots: int
    answer: str
    sentence: str
    days: tuple[str, ...] = ()


class Search(NamedTuple):
    """A search as it stands: how likely each change is, the steps, the next step.

    ``waiting_step`` is the step whose shots do not tell yet; while there is one it is hit on, and ``next`` is its
    changes.
    ``next_values`` are the values of the next setup, against the club now.
    """

    player: str
    id: str
    record: ChangeSearch
    changes: tuple[Suspect, ...]
    likelihoods: Likelihoods
    steps: tuple[Step, ...]
    waiting_step: Step | None
    next: tuple[Suspect, ...]
    next_values: Mapping[str, Any]

    @property
    def result(self) -> str:
        """The change named with 95 %, ``none of these``, or empty while unknown."""
        if self.likelihoods.certain_place is not None:
            return self.changes[self.likelihoods.certain_place].name
        return NONE_OF_THESE if self.likelihoods.is_decided else ""

    @property
    def sentences(self) -> list[str]:
        """Where the search stands, in words."""
        from fitlog.evidence.shots.wording import format_share

        out = [f"{each.name}: {format_share(chance)} ({each.text})" for each, chance in self.ranking]
        out.append(f"{NONE_OF_THESE}, but the swing, the ball or the day: {format_share(self.likelihoods.none)}")
        return [*out, self.conclusion]

    @property
    def ranking(self) -> list[tuple[Suspect, float]]:
        """The changes with how likely each is the one, the likeliest first."""
        pairs = list(zip(self.changes, self.likelihoods.changes, strict=True))
        return sorted(pairs, key=lambda each: -each[1])

    @property
    def conclusion(self) -> str:
        """What follows: the change named, the step to go on with, or the next setup."""
        if self.result == NONE_OF_THESE:
            return "none of these changes did it: look at the swing, the ball and the day"
        if self.result:
            return f"it is the {self.result}: {self.ranking[0][0].text}"
        if self.waiting_step:
            return f"go on hitting {self.waiting_step.ref}: {self.waiting_step.sentence}"
        return f"hit next: the club with {' and '.join(each.name for each in self.next)} put back"


def begin_search(desk: Desk, player: str, address: str, good: str) -> SearchStart:
    """What changed in a club from when it was good to now.

    That time is a day, a minute, a season, or last-proven.

    Raises UsageError for a club or time that is not there, Refusal where the club did not change.
    """
    club = choose_club(desk.workspace.bag(player), address, player)
    then, ball, moment = _find_good_setup(desk, player, club, good)
    now = club_setup(club)
    found = suspects(then, now)
    if not found.changes:
        left = f" ({'; '.join(found.left_out)})" if found.left_out else ""
        raise Refusal(
            f"nothing that can be put back has changed on the {club.address} since {moment}{left}",
            do="look at the swing, the ball and the day, or give an earlier day",
        )
    notes = [f"left out: {each}" for each in found.left_out]
    here = desk.workspace.bag(player).ball
    if any(ball.get(key) not in (None, value) for key, value in here._asdict().items()):
        notes.append("the ball has changed since then: hit everything with the same ball")
    return SearchStart(club, moment, then, now, found, tuple(notes))


def _find_good_setup(desk: Desk, player: str, club: Club, good: str) -> tuple[dict[str, Any], Mapping[str, Any], str]:
    """The club's setup when it was good, the ball, and that time in words."""
    file = bag_file(player)
    if good == LAST_PROVEN:
        bag = desk.workspace.load(file).table
        targets = last_proven(desk.history, file, bag, [club.slot])
        if not targets:
            raise Refusal(f"{club.slot} was never proven", do="give a day on which it was good: --good 2026-03-10")
        clubs, commit, moment = targets[0].clubs, targets[0].commit, "it was last proven"
    else:
        commit, moment = find_revision(desk.history, [file], good)
        clubs = clubs_of(desk.history.table_at(commit, file, sure=True), club.slot)
    table = desk.history.table_at(commit, file) if commit else desk.workspace.load(file).table
    row = next((each for each in clubs if str(each.get("id", "")) == club.id), clubs[0] if len(clubs) == 1 else None)
    if row is None:
        raise UsageError(f"there was no {club.address} at {moment}", do="give a day on which it was in the bag")
    ball = table.get("ball")
    return setup_of(row, CLUB_KEYS), ball if isinstance(ball, Mapping) else {}, moment


def open_search(desk: Desk, player: str, address: str) -> str:
    """The id of the club's open search, newest first; empty where there is none."""
    slot, club = ClubRef.parse(address)
    for name in reversed(desk.workspace.searches(player)):
        try:
            record = desk.workspace.search(player, name)
        except FitlogError:
            continue
        if record.slot == slot and (not club or record.club == club) and record.ended is None:
            return name
    return ""


def running_searches(desk: Desk, player: str) -> "list[Search]":
    """The player's searches that have not ended and can be read, the newest first."""
    player = desk.workspace.pick_player(player)
    out = []
    for name in reversed(desk.workspace.searches(player)):
        try:
            found = look_at_search(desk, player, name)
        except FitlogError:  # a broken file is named by check
            continue
        out += [found] if found.record.ended is None else []
    return out


def look_at_search(desk: Desk, player: str, search: str) -> Search:
    """A search as it stands by the shots of its steps.

    Raises Refusal for a file that lacks what is to be regained.
    """
    record = desk.workspace.search(player, search)
    if record.regain is None or not record.regain.by:
        raise Refusal("this search does not say what to regain", where=search, do="begin another")
    then, now = (_table(record.raw.get(key)) for key in ("then", "now"))
    found = suspects(then, now)
    steps = _steps(desk, player, search, record)
    places = {each.name: place for place, each in enumerate(found.changes)}
    answers = [
        Answer(frozenset(places[name] for name in each.reverted if name in places), each.answer == REGAINED)
        for each in steps
        if each.answer != OPEN
    ]
    stands = likelihoods(len(found.changes), answers)
    waiting = next((each for each in reversed(steps) if each.answer == OPEN), None)
    asked = [places[name] for name in waiting.reverted if name in places] if waiting else None
    chosen = [found.changes[place] for place in sorted(asked or next_setup(stands, found.together))]
    values = revert_changes(then, now, chosen)[1]
    return Search(player, search, record, found.changes, stands, steps, waiting, tuple(chosen), values)


def _table(value: Any) -> Mapping[str, Any]:
    return value if isinstance(value, Mapping) else {}


def _steps(desk: Desk, player: str, search: str, record: ChangeSearch) -> tuple[Step, ...]:
    """The steps that were hit, oldest first; earlier sessions are not read.

    A step that does not tell on one day goes on where the same changes are taken back on another.
    """
    assert record.regain is not None
    since = record.started.isoformat() if record.started else ""
    out: list[Step] = []
    waiting: dict[frozenset[str], tuple[int, list[_StepDay]]] = {}
    names = [name for name in desk.workspace.sessions(player) if name >= since]
    units = display_units(desk)
    for name, session in desk.workspace.readable_sessions(player, names):
        hidden = hidden_in(session)
        for test in session.test:
            if test.search != search:
                continue
            sides = [readings(each, record.regain.metric) for each in (test, session.reference_for(test))]
            key = frozenset(test.reverted)
            place, hit = waiting.setdefault(key, (len(out), []))
            hit.append(_StepDay(ref(name, test.id), sides[0], sides[1], hidden.why.get(test.id, "")))
            out[place:] = [_step(test.reverted, hit, record.regain, units), *out[place + 1 :]]
            if out[place].answer != OPEN:
                del waiting[key]
    return tuple(out)


class _StepDay(NamedTuple):
    """One day of a step: its test, its values beside the club's, why hidden."""

    ref: str
    test: Sequence[float]
    reference: Sequence[float]
    hidden: str = ""


def _step(changes: tuple[str, ...], step_days: Sequence[_StepDay], regain: Regain, units: DisplayUnits) -> Step:
    days = [(each.test, each.reference) for each in step_days if not each.hidden]
    answer = answer_over_days(days, regain.by)
    ours, theirs = (sum(len(day[side]) for day in days) for side in (0, 1))
    shots = f"{format_count(ours, 'shot')} against {theirs}"
    shots += f" on {len(days)} days" if len(days) > 1 else ""
    found = shift_of_days(days)
    seen = difference_sentence(regain.metric, *found[:3], "the club as it is", units) if found else ""
    if step_days[-1].hidden:
        sentence = step_days[-1].hidden
    elif answer == OPEN:
        sentence = f"{shots} are too few to tell" + (f" ({seen})" if seen else "") + "; go on hitting both in turn"
    else:
        sentence = f"{answer}: {seen} ({shots})"
    return Step(step_days[-1].ref, changes, ours, theirs, answer, sentence, tuple(each.ref for each in step_days))
