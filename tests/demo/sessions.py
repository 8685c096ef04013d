"""The demo's sessions, one after another."""

from collections.abc import Iterator
from pathlib import Path

from fitlog import demo
from fitlog.records.models.session import Session
from fitlog.saving.desk import Desk

WHOLE_BAGS = {each.name for each in (Path(demo.__file__).parent / "brought" / "whole_bags").iterdir()}


def sessions(desk: Desk) -> Iterator[tuple[str, str, Session]]:
    for player in desk.workspace.players():
        for name in desk.workspace.sessions(player):
            yield player, name, desk.workspace.session(player, name)
