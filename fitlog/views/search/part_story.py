"""One part: what is stated, where it was tried, what it did for players."""

import os
from collections.abc import Sequence
from typing import NamedTuple

from fitlog.records.models.part import SHELVES
from fitlog.records.models.session import CANDIDATE
from fitlog.saving.desk import Desk
from fitlog.views.details.parts import list_parts, part_values
from fitlog.views.search.effect import PooledEffect, pooled_effect
from fitlog.views.search.finder import Hit, PartRecord, Progress, find, part_records

_BALLS = "balls"  # tried in no setup: a ball is the session's


class PartStory(NamedTuple):
    """A part over all players.

    ``stated_values``: its file's values in words; ``tests``: its tests, the newest first.

    ``record`` is None for a part that was never tried; ``effect`` holds what it did beside a reference without it.
    """

    model: str
    part: str
    stated_values: tuple[tuple[str, str], ...]
    record: PartRecord | None
    tests: tuple[Hit, ...]
    effect: PooledEffect

    @property
    def shots(self) -> int:
        """How many shots its tests hold."""
        return sum(each.shots or 0 for each in self.tests)


def part_story(desk: Desk, name: str, progress: Progress | None = None) -> PartStory:
    """The story of a part, named by its model or id, even without a file."""
    part, model, stated = _part_values(desk, name)
    effect = pooled_effect(desk, model, progress=progress)
    records = [each for each in part_records(desk, model, fresh=True) if each.model.casefold() == model.casefold()]
    tried = find(desk, part=model, what="test", role=CANDIDATE, fresh=True)
    return PartStory(model, part, stated, records[0] if records else None, tuple(tried), effect)


def _part_values(desk: Desk, name: str) -> tuple[str, str, tuple[tuple[str, str], ...]]:
    """The part's id, model and values in words; check names a broken file."""
    asked = name.casefold()
    for part in list_parts(desk):
        if asked in (part.id, part.model.casefold()) and not part.trouble:
            values = part_values(desk, f"{part.shelf}/{part.id}")[2]
            return part.id, part.model, tuple((each.label, each.words) for each in values if each.key != "model")
    return "", name, ()


def part_ids(root: str) -> Sequence[str]:
    """The ids of heads, shafts and grips in stock, without reading a file."""
    found: list[str] = []
    for shelf in SHELVES:
        folder = os.path.join(root, "parts", shelf)
        if shelf != _BALLS and os.path.isdir(folder):
            found += (name.removesuffix(".toml") for name in os.listdir(folder) if name.endswith(".toml"))
    return sorted(found)
