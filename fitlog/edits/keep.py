"""The edit of a bag that a kept test makes."""

from typing import TYPE_CHECKING, Any

from fitlog.edits.bag import name_twins, read_document
from fitlog.records.errors import UsageError
from fitlog.records.models.bag import CLUB_KEYS, TRIAL, club_setup, find_clubs
from fitlog.records.models.session import DECISIONS, ClubTest, ref
from fitlog.records.naming.ids import draw_unused
from fitlog.saving.desk import Desk

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document


# What belongs to the place in the bag and outlives a change of setup.
_STAYS = CLUB_KEYS - {"readings"}


def check_decision(decision: str) -> None:
    if decision not in DECISIONS:
        raise UsageError(f"'{decision}' is not a verdict", do="write keep, reject or retest")


def put_test_into_bag(desk: Desk, bag: "Document", test: ClubTest, session: str, as_second: bool) -> None:
    """Make the bag's club the test's setup, on trial, resting on this test.

    The same setup only gains evidence.
    """
    address = ref(session, test.id)
    clubs = read_document(bag)
    wanted = test.address
    found = find_clubs(clubs, wanted)
    setup = dict(test.raw.get("setup", {}))
    today = desk.now().date()
    if as_second or not found:
        row: dict[str, Any] = {"slot": test.slot}
        if found:
            row |= {"id": draw_unused(desk.draw, 3, [club.id for club in clubs.club]), "carried": False}
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
