"""The verdict: keep, reject or retest, with a reason, and the exact change to the bag that keeping will commit."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.actions.bags import name_twins
from fitlog.actions.desk import Desk
from fitlog.actions.saving import Done, Save, saving, settle_shots
from fitlog.history.meaning import Difference, bag_differences, summary
from fitlog.history.message import Message, checked_reason
from fitlog.records.bag import CLUB_KEYS, TRIAL, club_setup, find_clubs, read_bag
from fitlog.records.errors import UsageError
from fitlog.records.ids import fresh
from fitlog.records.session import DECISIONS, KEEP, ClubTest, ref
from fitlog.workspace.layout import bag_file, session_file

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document

# What belongs to the place in the bag and outlives a change of setup.
_STAYS = CLUB_KEYS - {"readings"}


class Plan(NamedTuple):
    """What a verdict would do, before it is done."""

    player: str
    session: str
    test: ClubTest
    decision: str
    bag: tuple[Difference, ...]

    @property
    def ref(self) -> str:
        """The test's address."""
        return ref(self.session, self.test.id)


def plan(desk: Desk, player: str, where: str, decision: str, beside: bool = False) -> Plan:
    """What giving this verdict would change in the bag.

    Raises UsageError for an unknown verdict or test.
    """
    player = desk.workspace.pick_player(player)
    session, _, test = desk.workspace.pick_test(player, where)
    _check_decision(decision)
    if decision != KEEP:
        return Plan(player, session, test, decision, ())
    from fitlog.workspace.documents import Document

    loaded = desk.workspace.load(bag_file(player))
    edited = Document(bag_file(player), loaded.text)
    _keep(desk, edited, test, session, beside)
    return Plan(player, session, test, decision, tuple(bag_differences(loaded.table, edited.table)))


def _check_decision(decision: str) -> None:
    if decision not in DECISIONS:
        raise UsageError(f"'{decision}' is not a verdict", do="write keep, reject or retest")


def give(
    desk: Desk,
    player: str,
    where: str,
    decision: str,
    reason: str,
    beside: bool = False,
    known: tuple[Mapping[str, Any], str] | None = None,
) -> Done:
    """Write the verdict into the session and, for a keep, the setup into the bag, in one commit.

    The numbers of this moment and the version of the method that computed them go into the session file too;
    ``known`` gives both where they were computed before.
    Raises Refusal without a reason, UsageError for an unknown verdict or test.
    """
    reason = checked_reason(reason)
    _check_decision(decision)
    settle_shots(desk)
    player = desk.workspace.pick_player(player)
    with saving(desk) as save:
        session, _, test = desk.workspace.pick_test(player, where)
        edited = save.open(session_file(player, session))
        place = [row.get("id") for row in edited.table["test"]].index(test.id)
        verdict: dict[str, Any] = {"decision": decision, "reason": reason, "on": desk.now().date()}
        if who := desk.workspace.settings_at_hand().logger.name:
            verdict["by"] = who
        numbers, method = known or (_numbers(desk, player, ref(session, test.id)) if test.shots else ({}, ""))
        if numbers:
            verdict |= {"method": method, "numbers": numbers}
        edited.become(("test", place, "verdict"), verdict)
        save.put_document(edited)
        moved: list[Difference] = []
        if decision == KEEP:
            moved = _put_bag(desk, save, player, test, session, beside)
        club = moved[0].place if moved else test.slot
        said = summary(moved).removeprefix(club + ": ") or setup_said(test)
        message = Message(
            f"{decision.capitalize()} {club}: {said}",
            decision,
            reason,
            [player],
            [test.slot],
            [ref(session, test.id)],
        )
        return save.commit(message)


def _numbers(desk: Desk, player: str, where: str) -> tuple[dict[str, Any], str]:
    from fitlog.actions.evidence import assessment, numbers

    return numbers(assessment(desk, player, where).found)


def setup_said(test: ClubTest) -> str:
    """The test's setup in one line."""
    from fitlog.records.words import setup_text

    return setup_text(test.raw.get("setup", {}))


def _put_bag(desk: Desk, save: Save, player: str, test: ClubTest, session: str, beside: bool) -> list[Difference]:
    bag = save.open(bag_file(player))
    before = bag.snapshot()
    _keep(desk, bag, test, session, beside)
    save.put_document(bag)
    return bag_differences(before, bag.table)


def _keep(desk: Desk, bag: "Document", test: ClubTest, session: str, beside: bool) -> None:
    """The bag's club becomes the test's setup, on trial, resting on this test; the same setup only gains evidence."""
    address = ref(session, test.id)
    clubs = read_bag(bag.snapshot(), [])
    wanted = f"{test.slot}#{test.club}" if test.club else test.slot
    found = find_clubs(clubs, wanted)
    setup = dict(test.raw.get("setup", {}))
    today = desk.now().date()
    if beside or not found:
        row: dict[str, Any] = {"slot": test.slot}
        if found:
            row |= {"id": fresh(desk.draw, 3, [club.id for club in clubs.club]), "carried": False}
            name_twins(desk, bag, clubs.club, test.slot, row["id"])
        bag.add("club", {**row, "standing": TRIAL, "since": today, "evidence": [address], **setup})
        return
    club = found[0]
    number = clubs.club.index(club)
    if club_setup(club) == setup:
        if address not in club.evidence:
            bag.set(("club", number, "evidence"), [*club.evidence, address])
        return
    readings = {"readings": test.raw["readings"]} if "readings" in test.raw else {}
    bag.become(("club", number), {**setup, **readings}, keep=frozenset(_STAYS))
    bag.set(("club", number, "standing"), TRIAL)
    bag.set(("club", number, "since"), today)
    bag.set(("club", number, "evidence"), [address])
