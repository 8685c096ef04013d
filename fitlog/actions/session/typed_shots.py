"""Save the typed shots that wait, in their order, each once."""

from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import Any, NamedTuple

from fitlog.actions.session.shots import add_shots_once
from fitlog.records.errors import FitlogError
from fitlog.records.wording.plurals import format_count
from fitlog.saving import typed_shots
from fitlog.saving.desk import Desk
from fitlog.saving.save import saving
from fitlog.saving.typed_shots import TypedShot


class SavedShots(NamedTuple):
    """The names of the shots that are saved now, and why others are not, by name."""

    saved_names: tuple[str, ...]
    refusals: Mapping[str, str]


def save_typed_shots(desk: Desk) -> SavedShots:
    """Save all typed shots that wait.

    Where one of a test cannot be saved, the later ones of that test wait with it.
    """
    saved: list[str] = []
    refused: dict[str, str] = {}
    held: set[tuple[str, str]] = set()
    for test, group in groupby(typed_shots.read_all(desk.root), lambda each: (each.player, each.test_ref)):
        shots = list(group)
        reason = "the shot before it waits" if test in held else _save(desk, test, shots)
        if reason:
            held.add(test)
            refused |= {each.name: reason for each in shots}
        else:
            typed_shots.drop(desk.root, [each.name for each in shots])
            saved += [each.name for each in shots]
    return SavedShots(tuple(saved), refused)


def recover_typed_shots(desk: Desk) -> list[str]:
    """At a start, save the shots that a killed program left.

    Call it after the save that was cut short is finished.

    Returns what a person should know.
    """
    if desk.past or not typed_shots.read_all(desk.root):
        return []
    with saving(desk) as save:
        notes = list(save.notes)
    if refused := save_typed_shots(desk).refusals:
        reason = next(iter(refused.values()))
        notes.append(f"{format_count(len(refused), 'shot')} typed before could not be saved: {reason}")
    return notes


def _save(desk: Desk, test: tuple[str, str], shots: Sequence[TypedShot]) -> str:
    """Save shots of one test; returns why they cannot be, empty where they are."""
    values: list[Mapping[str, Any]] = [each.shot for each in shots]
    try:
        add_shots_once(desk, *test, values)
    except FitlogError as error:
        return str(error)
    return ""
