"""A file of several clubs: which group of its rows belongs to which test."""

import re
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from fitlog.records.entry.slot_words import find_slots, read_slot
from fitlog.records.models.bag import Bag, Club, choose_club, club_setup, find_clubs, known_address
from fitlog.records.models.session import REFERENCE, ClubTest, Session, name_test, ref
from fitlog.records.wording.words import describe_setup
from fitlog.saving.desk import Desk
from fitlog.views.session.blind import hidden_in
from fitlog.views.session.shot_file import ShotFile
from fitlog.views.session.today import todays_session
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import source_file

NOT_UNDERSTOOD = "the name is not that of a club"
NOT_NAMED = "the file does not say which club"


class GroupPlan(NamedTuple):
    """One group of a file and where its shots would go.

    ``club`` is the bag's club, empty where it is not known; ``test`` an open test, empty for a new reference test of
    the club. ``before`` is the test that this group came into earlier; ``why`` what to know or to choose.
    """

    group: str
    shots: int
    club: str
    test: str = ""
    before: str = ""
    why: str = ""

    @property
    def ready(self) -> bool:
        """Whether the group can come in as it is planned."""
        return bool(self.club) and not self.before

    @property
    def where(self) -> str:
        """Where the shots would go, in words."""
        if self.before:
            return f"imported before, into the test of {self.before[:10]}"
        if not self.club:
            return self.why or (NOT_UNDERSTOOD if self.group else NOT_NAMED)
        return f"{self.club}, {self.why}" if self.why else self.club


class FilePlan(NamedTuple):
    """A file's groups and where they would go: all in one commit."""

    player: str
    file: ShotFile
    session: str
    groups: tuple[GroupPlan, ...]


def plan_file(desk: Desk, player: str, file: ShotFile, session: str = "", only_bag: bool = False) -> FilePlan:
    """Where each group of a file would go, by names, bag and open tests.

    ``session`` else today's; with ``only_bag`` every group goes to a reference test of the bag's club.
    Raises UsageError for a player or session that is not there.
    """
    player = desk.workspace.pick_player(player)
    name = desk.workspace.pick_session(player, session) if session else todays_session(desk, player)
    record = desk.workspace.session(player, name) if name else None
    bag = desk.workspace.bag(player)
    before = earlier_imports(desk, player, file.source_name)
    out: list[GroupPlan] = []
    for group, shots in file.preview.intake.groups.items() if file.preview.intake else ():
        plan = GroupPlan(group, len(shots), *_guess(bag, group))
        if plan.club:
            plan = _choose_test(plan, name, record, bag, only_bag)
        twin = next((each for each in out if plan.club and each[2:4] == plan[2:4]), None)
        if twin:
            plan = plan._replace(club="", test="", why=f"{plan.club} is the club of '{twin.group}' already")
        out.append(plan._replace(before=before.get(group, "")))
    return FilePlan(player, file, name, tuple(out))


def _guess(bag: Bag, name: str) -> tuple[str, str, str, str]:
    """Club, test, before and why of a group by its name."""
    simple = _simple(name)
    for slot in _slots_of(bag, name):
        if clubs := find_clubs(bag, slot):
            club = _one_of(clubs, simple)
            rivals = " or ".join(each.address for each in clubs)
            return (club.address, "", "", "") if club else ("", "", "", f"could be {rivals}")
    known = [club for club in bag.clubs if (model := _simple(club.setup.head.model or "")) and model in simple]
    if len(known) == 1:
        return known[0].address, "", "", ""
    slots = _slots_of(bag, name)
    return "", "", "", f"the bag has no {slots[0]}" if slots else ""


def _slots_of(bag: Bag, name: str) -> tuple[str, ...]:
    """The slots that a name may mean, the likeliest first."""
    reading = read_slot(name)
    if reading.slot:
        return (reading.slot,)
    own = [club.slot for club in bag.clubs if club.slot == name.strip().casefold()]
    near = [slot for slot in reading.near if find_clubs(bag, slot)]
    lone = near if len(near) == 1 and re.fullmatch(r"\s*\d+\s*", name) else []
    return (*own, *find_slots(name), *lone)


def _one_of(clubs: Sequence[Club], simple: str) -> Club | None:
    """The club meant in one slot: by its head's name, else the one carried."""
    match = [club for club in clubs if (model := _simple(club.setup.head.model or "")) and model in simple]
    carried = [club for club in clubs if club.carried]
    for found in (match, clubs, carried):
        if len(found) == 1:
            return found[0]
    return None


def _simple(text: str) -> str:
    return " ".join(re.findall(r"[^\W_]+", text.casefold()))


def _choose_test(plan: GroupPlan, name: str, record: Session | None, bag: Bag, only_bag: bool) -> GroupPlan:
    """The group with its club's open test; a new reference test for none."""
    club = find_clubs(bag, plan.club)[0]
    open_tests = [test for test in record.tests_of(club.slot) if test.verdict is None] if record else []
    if only_bag:
        open_tests = [test for test in open_tests if is_reference_of(test, club)]
    if not open_tests:
        return plan._replace(why="a new reference test")
    match = _test_of_group(plan.group, open_tests)
    if len(open_tests) > 1 and not match:
        return plan._replace(
            club="", why=f"{len(open_tests)} open tests of {club.slot}; say which: GROUP=SESSION#TEST"
        )
    return _at_test(plan, name, record, match or open_tests[0])


def _at_test(plan: GroupPlan, name: str, record: Session | None, test: ClubTest) -> GroupPlan:
    """The group going to a test, without role or code where that is blind."""
    is_blind = record is not None and hidden_in(record).name(test.id)
    why = "a blind test" if is_blind else name_test(test, record.test if record else ())
    return plan._replace(test=ref(name, test.id), why=f"{why} of {name[:10]}")


def place_group(desk: Desk, plan: FilePlan, group: str, target: str) -> FilePlan:
    """The plan with one group put elsewhere: a club, a test, or ``-`` for none.

    target: a test's id in the plan's session, SESSION#TEST, or a club as it is written or spoken.
    Raises UsageError for a club or test that is not there.
    """
    return plan._replace(
        groups=tuple(
            _place_group(desk, plan, each, target.strip()) if each.group == group else each for each in plan.groups
        )
    )


def _names_of(test: ClubTest, tests: Sequence[ClubTest]) -> tuple[str, str]:
    """What a person may call a test of a session, alone or with its slot."""
    name = name_test(test, tests)
    return name, f"{test.slot} {name}"


def _place_group(desk: Desk, plan: FilePlan, each: GroupPlan, target: str) -> GroupPlan:
    if target == "-":
        return each._replace(club="", test="", why="skipped")
    record = desk.workspace.session(plan.player, plan.session) if plan.session else None
    tests = record.test if record else ()
    target = next((test.id for test in tests if target.casefold() in _names_of(test, tests)), target)
    if "#" in target or target in [test.id for test in tests]:
        target = target if "#" in target else ref(plan.session, target)
        name, record, test = desk.workspace.pick_test(plan.player, target)
        return _at_test(each._replace(club=test.address), name, record, test)
    bag = desk.workspace.bag(plan.player)
    club = choose_club(bag, known_address(bag, target), plan.player)
    return _choose_test(each._replace(club=club.address, test="", why=""), plan.session, record, bag, False)


def names_other_club(group: str, slot: str) -> bool:
    """Whether a group's name says another club than this slot's.

    >>> names_other_club("7 Iron", "3w"), names_other_club("7 Iron", "7i"), names_other_club("new shaft", "3w")
    (True, False, False)
    """
    slots = (read_slot(group).slot,) if read_slot(group).slot else find_slots(group)
    return bool(slots) and slot not in slots


def other_club_sentence(group: str, slot: str) -> str:
    """What is odd about shots that the file calls another club than this slot's."""
    return f"the file calls these shots '{group}', and the test is of {slot}"


def is_reference_of(test: ClubTest, club: Club) -> bool:
    """Whether a test is a reference test of a bag's club as it is now."""
    same = test.raw.get("setup", {}) == club_setup(club)
    return test.role == REFERENCE and test.slot == club.slot and (test.club or "") == club.id and same


def _test_of_group(group: str, tests: Sequence[ClubTest]) -> ClubTest | None:
    """The one test whose setup or role shares the most words with a group's name."""
    words = set(_simple(group).split())
    scores = [len(words & _words_of(test)) for test in tests]
    best = max(scores)
    return tests[scores.index(best)] if best and scores.count(best) == 1 else None


def _words_of(test: ClubTest) -> set[str]:
    return set(_simple(f"{test.role} {describe_setup(test.raw.get('setup', {}))}").split())


def earlier_imports(desk: Desk, player: str, file: str) -> dict[str, str]:
    """The groups of a kept file that came in before, each with its newest test.

    "" for a file without groups.
    """
    if read_bytes(desk.root, source_file(player, file)) is None:
        return {}
    return dict(_imports_of(desk, player, file))


def _imports_of(desk: Desk, player: str, file: str) -> Iterable[tuple[str, str]]:
    for name, record in desk.workspace.readable_sessions(player):
        for test in record.test:
            yield from ((each.group or "", ref(name, test.id)) for each in test.sources if each.file == file)
