"""Measure a bag club after club.

Open the reference test of each, and have the clubs rest on what was hit.
"""

from collections.abc import Collection

from fitlog.actions.session.import_groups import rest_on
from fitlog.actions.session.setup import start_test
from fitlog.edits.tests import find_row
from fitlog.history.message import Message
from fitlog.records.models.session import FULL, REFERENCE, ClubTest
from fitlog.records.naming.refs import TestRef
from fitlog.saving.desk import Desk
from fitlog.saving.save import Save, SaveResult, saving, settle_shots
from fitlog.views.session.measuring_cells import MeasuringCell, todays_cells
from fitlog.workspace.layout import session_file


def open_cell(desk: Desk, player: str, cell: MeasuringCell) -> str:
    """The test that takes a cell's shots, as SESSION#TEST.

    It is today's open reference test, else a new one.

    Raises UsageError for a club that is not in the bag.
    """
    known = next((each.test for each in todays_cells(desk, player) if each[:2] == cell[:2]), "")
    if known:
        return known
    swing = "" if cell.swing == FULL else cell.swing
    return start_test(desk, player, cell.club, role=REFERENCE, own_slot=True, swing=swing).ref


def end_measuring(desk: Desk, player: str, test_refs: Collection[str] = ()) -> SaveResult | None:
    """End the measuring: each club rests on the carries hit today, in one commit.

    test_refs: the tests that the measuring began; those without a shot are taken away. None where nothing changed.
    """
    settle_shots(desk)
    player = desk.workspace.pick_player(player)
    hit = [(cell, desk.workspace.pick_test(player, cell.test)[2]) for cell in todays_cells(desk, player) if cell.test]
    resting = [(cell.club, cell.test) for cell, test in hit if cell.swing == FULL and _has_carry(test)]
    empty = [cell.test for cell, test in hit if cell.test in test_refs and not test.shots]
    bag = {club.address: club.evidence for club in desk.workspace.bag(player).club}
    fresh = [(club, test) for club, test in resting if test not in bag[club]]
    if not fresh and not empty:
        return None
    with saving(desk) as save:
        _take_away(save, player, empty)
        if fresh:
            rest_on(save, player, fresh)
        slots = [club for club, _ in fresh]
        subject = f"carries measured: {', '.join(slots)}" if fresh else "tests without a shot removed"
        return save.commit(Message(subject, "measure", "", [player], slots, [test for _, test in fresh]))


def _has_carry(test: ClubTest) -> bool:
    return any(shot.carry_yd is not None for shot in test.counted_shots)


def _take_away(save: Save, player: str, tests: Collection[str]) -> None:
    """Take tests out of their session."""
    for session in dict.fromkeys(TestRef.parse(each).session for each in tests):
        edited = save.open(session_file(player, session))
        for each in tests:
            if TestRef.parse(each).session == session:
                edited.drop("test", find_row(edited, TestRef.parse(each).test)[1])
        save.put_document(edited)
