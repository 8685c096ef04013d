"""Why a value is what it is: the changes, reasons and tests that led to it."""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from fitlog.history.message import Entry
from fitlog.history.timeline.why import Step as Step
from fitlog.history.timeline.why import club_in, since, why
from fitlog.records.errors import UsageError
from fitlog.records.models.bag import Club, choose_club
from fitlog.records.models.setup import Setup
from fitlog.records.schema.dotted_keys import flatten
from fitlog.saving.desk import Desk
from fitlog.views.history.club_story import refuse_taken_out
from fitlog.workspace.layout import bag_file


class ValueHistory(NamedTuple):
    """A value, and the chain of changes that led to it, newest first."""

    player: str
    slot: str
    key: str
    value: Any
    steps: tuple[Step, ...]


def value_history(desk: Desk, player: str, address: str, key: str) -> ValueHistory:
    """Why a club's value is what it is.

    ``loft`` stands for ``loft_deg`` where the club has only the one.

    Raises UsageError for a club or a key that is not there and never was.
    """
    player = desk.workspace.pick_player(player)
    name = bag_file(player)
    refuse_taken_out(desk, player, address)
    club = choose_club(desk.workspace.bag(player), address, player)
    now = club_in(desk.workspace.load(name).table, club.slot, club.id) or {}
    values = dict(flatten(now))
    key = _full_key(key, values)
    steps = why(desk.history, name, club.slot, club.id, key)
    if key not in values and not steps:
        raise UsageError(
            f"the {address} of {player} has no '{key}', and never had", do="its keys are " + ", ".join(sorted(values))
        )
    value = values.get(key)
    committed = club_in(desk.history.table_at("HEAD", name), club.slot, club.id) or {}
    if dict(flatten(committed)).get(key) == value:
        # of two vans' changes the later one is not always the one that stands
        standing = _first(steps, value)
        steps.sort(key=lambda step: step is not standing)
    elif (steps[0].new if steps else None) != value:  # changed by hand and not committed yet
        edit = Entry("", (), desk.now(), "", "edited by hand, not in the history yet", action="edit")
        steps.insert(0, Step(edit, steps[0].new if steps else None, value))
    return ValueHistory(player, club.address, key, value, tuple(steps))


def _full_key(key: str, values: Mapping[str, Any]) -> str:
    """The key meant by a short one, as written where it is not plain which."""
    from fitlog.records.schema.keys import similar_keys

    if key in values:
        return key
    spellings = (key, key.replace(" ", ".", 1))  # "shaft weight" is shaft.mass_g
    meant = {each for form in spellings for each in similar_keys(form, Setup, Club) if each in values}
    return meant.pop() if len(meant) == 1 else key


def _first(steps: Sequence[Step], value: Any) -> Step | None:
    return next((step for step in steps if step.new == value), None)


def value_origins(desk: Desk, player: str, slot: str, club_id: str) -> dict[str, Step]:
    """For each value of a club, the change that gave it."""
    return since(desk.history, bag_file(player), slot, club_id)


def describe_tests(desk: Desk, refs: Sequence[str], player: str) -> list[str]:
    """Each test address with its verdict in words; one that is gone says so."""
    out = []
    for each in refs:
        try:
            _, _, test = desk.workspace.pick_test(player, each)
            verdict = f"{test.verdict.decision}: {test.verdict.reason}" if test.verdict else "no verdict yet"
        except UsageError:
            verdict = "not found"
        out.append(f"{each} ({verdict})")
    return out
