"""Find which change of a club did it: begin a search, set its next step, end it."""

from collections.abc import Mapping
from typing import Any

from fitlog.actions.session.setup import StartedTest, start_test
from fitlog.history.message import Message, require_reason
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.bag import choose_club, club_setup
from fitlog.records.models.session import MEASURES
from fitlog.records.naming.ids import draw_unused, session_id
from fitlog.records.naming.refs import ClubRef, TestRef
from fitlog.records.wording.plurals import format_count
from fitlog.saving.desk import Desk
from fitlog.saving.save import Save, SaveResult, saving, settle_shots
from fitlog.views.history.which_change import begin_search, look_at_search, open_search
from fitlog.views.session.today import todays_session
from fitlog.workspace.layout import SCHEMA_FOLDER, schema_line, search_file
from fitlog.workspace.text.toml_text import table_text

_SCHEMA = "search.schema.json"


def start_search(desk: Desk, player: str, address: str, good: str, metric: str, by: float) -> tuple[str, SaveResult]:
    """Begin to search a club for the change to blame; returns the search's id.

    ``good``: when it was good; ``metric`` and ``by``: what is to be regained, negative where it is to fall.
    Raises Refusal while another search of the club runs, UsageError for what is no quantity or amount.
    """
    if metric not in MEASURES:
        raise UsageError(f"'{metric}' is not a measured quantity", do="use one of " + ", ".join(MEASURES))
    if not by:
        raise UsageError("there is nothing to regain", do="say how much, such as carry_yd=8")
    player = desk.workspace.pick_player(player)
    begun = begin_search(desk, player, address, good)
    if running := open_search(desk, player, begun.club.address):
        raise Refusal(f"the search {running} of {begun.club.address} has not ended", do="go on with it, or end it")
    table: dict[str, Any] = {"slot": begun.club.slot} | ({"club": begun.club.id} if begun.club.id else {})
    table |= {"started": desk.now().date(), "good": begun.good, "regain": {"metric": metric, "by": by}}
    table |= {"then": begun.then, "now": begun.now}
    table |= {"left_out": list(begun.suspects.left_out)} if begun.suspects.left_out else {}
    with saving(desk, settle_shots=True) as save:
        _put_schema(save, desk)
        name = session_id(desk.now().date(), draw_unused(desk.draw, 3, desk.workspace.searches(player)))
        file = search_file(player, name)
        save.put(file, schema_line(file, "search") + table_text(table))
        save.notes += begun.notes
        count = len(begun.suspects.changes)
        subject = f"{begun.club.slot}: search among {format_count(count, 'change')} since {begun.good}"
        return name, save.commit(Message(subject, "search", "", [player], [begun.club.slot]))


def _put_schema(save: Save, desk: Desk) -> None:
    """Add the schema of searches to a workspace older than they are.

    An editor checks the file by it.
    """
    from fitlog.workspace.files import read_bytes
    from fitlog.workspace.package_data import schema_files

    if read_bytes(desk.root, f"{SCHEMA_FOLDER}/{_SCHEMA}") is None:
        save.put(f"{SCHEMA_FOLDER}/{_SCHEMA}", schema_files()[_SCHEMA].decode())


def start_step(desk: Desk, player: str, search: str) -> StartedTest:
    """Set up the next step: the club with some changes taken back, and as it is now.

    A step of another day that does not tell yet is set up again today, and its days are told together.
    Raises Refusal where the search has its answer or has ended, where today's step cannot be told yet, and where the
    club was changed.
    """
    settle_shots(desk)
    player = desk.workspace.pick_player(player)
    found = look_at_search(desk, player, search)
    if found.record.ended is not None:
        raise Refusal(f"this search ended on {found.record.ended}", where=search, do="begin another")
    if found.result:
        raise Refusal(found.conclusion, where=search, do="end the search with a reason")
    if found.waiting_step and TestRef.split(found.waiting_step.ref).session == todays_session(desk, player):
        raise Refusal(
            f"this step has no answer yet: {found.waiting_step.sentence}",
            where=found.waiting_step.ref,
            do="go on hitting it",
        )
    record = found.record
    address = str(ClubRef(record.slot, record.club or ""))
    if club_setup(choose_club(desk.workspace.bag(player), address, player)) != found.record.raw.get("now"):
        raise Refusal(f"{address} was changed since the search began", where=search, do="end it, and begin another")
    names = [each.name for each in found.next]
    assert record.regain is not None
    return start_test(
        desk,
        player,
        address,
        values=dict(found.next_values),
        criteria=step_criteria(record.regain.metric, record.regain.by),
        also_reference=True,
        own_slot=True,
        step=(search, names),
    )


def step_criteria(metric: str, by: float) -> list[Mapping[str, Any]]:
    """The criteria of a step: one met if the loss is back, one if it is not.

    >>> step_criteria("carry_yd", 8.0)
    [{'metric': 'carry_yd', 'gain_at_least': 2.0}, {'metric': 'carry_yd', 'gain_at_most': 6.0}]
    """
    back, lost = ("gain_at_least", "gain_at_most") if by > 0 else ("gain_at_most", "gain_at_least")
    return [{"metric": metric, back: by / 4}, {"metric": metric, lost: by * 3 / 4}]


def end_search(desk: Desk, player: str, search: str, reason: str) -> SaveResult:
    """End a search with what it found, or with what a person concludes before that.

    Raises Refusal for one that has ended already and without a reason.
    """
    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    found = look_at_search(desk, player, search)
    if found.record.ended is not None:
        raise Refusal(f"this search ended on {found.record.ended}", where=search, do="begin another")
    result = found.result or "no answer"
    with saving(desk, settle_shots=True) as save:
        edited = save.open(search_file(player, search))
        for key, value in (("ended", desk.now().date()), ("result", result), ("reason", reason)):
            edited.set((key,), value)
        save.put_document(edited)
        evidence = [each.ref for each in found.steps]
        slot = found.record.slot
        return save.commit(Message(f"{slot}: search ended, {result}", "search", reason, [player], [slot], evidence))
