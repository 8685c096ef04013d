"""Give a verdict: keep, reject or retest, with a reason."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from fitlog.history.differences import Difference, bag_differences, summary
from fitlog.history.message import Message, require_reason
from fitlog.records.models.session import KEEP, ClubTest, ref
from fitlog.saving.desk import Desk
from fitlog.saving.save import Save, SaveResult, saving
from fitlog.workspace.layout import bag_file, session_file

if TYPE_CHECKING:
    pass
from fitlog.edits.keep import check_decision, put_test_into_bag
from fitlog.edits.tests import refuse_reference
from fitlog.views.verdict.plan import describe_trial


def give_verdict(
    desk: Desk,
    player: str,
    where: str,
    decision: str,
    reason: str,
    as_second: bool = False,
    evidence: tuple[Mapping[str, Any], str] | None = None,
) -> SaveResult:
    """Write the verdict into the session and a keep's setup into the bag, at once.

    Both are one commit.

    The numbers of this moment and the version of the method that computed them go into the session file too;
    ``evidence`` gives both where they were computed before.
    Raises UsageError without a reason or for an unknown verdict or test, Refusal for a reference.
    """
    reason = require_reason(reason)
    check_decision(decision)
    player = desk.workspace.pick_player(player)
    with saving(desk, settle_shots=True) as save:
        session, record, test = desk.workspace.pick_test(player, where)
        refuse_reference(test, where, "give the verdict on the candidate that was hit beside it")
        edited = save.open(session_file(player, session))
        place = [row.get("id") for row in edited.table["test"]].index(test.id)
        verdict: dict[str, Any] = {"decision": decision, "reason": reason, "on": desk.now().date()}
        if who := desk.workspace.settings_at_hand().logger.name:
            verdict["by"] = who
        numbers, method = evidence or (
            _evidence_numbers(desk, player, ref(session, test.id)) if test.shots else ({}, "")
        )
        if numbers:
            verdict |= {"method": method, "numbers": numbers}
        edited.become(("test", place, "verdict"), verdict)
        save.put_document(edited)
        moved: list[Difference] = []
        if decision == KEEP:
            moved = _put_into_bag(desk, save, player, test, session, as_second)
        club = moved[0].place if moved else test.slot
        changes = summary(moved).removeprefix(club + ": ") or describe_trial(desk, player, record, test)
        message = Message(
            f"{decision.capitalize()} {club}: {changes}",
            decision,
            reason,
            [player],
            [test.slot],
            [ref(session, test.id)],
        )
        return save.commit(message)


def _evidence_numbers(desk: Desk, player: str, where: str) -> tuple[dict[str, Any], str]:
    from fitlog.views.verdict.evidence import assessment, numbers

    return numbers(assessment(desk, player, where).assessment)


def _put_into_bag(
    desk: Desk, save: Save, player: str, test: ClubTest, session: str, as_second: bool
) -> list[Difference]:
    bag = save.open(bag_file(player))
    before = bag.snapshot()
    put_test_into_bag(desk, bag, test, session, as_second)
    save.put_document(bag)
    return bag_differences(before, bag.table)
