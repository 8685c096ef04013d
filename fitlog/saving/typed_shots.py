"""Typed shots that are not saved yet: on disk before their line is cleared.

A file a shot under ``.fitlog/shots``, whole and synced; it goes once the session's file has the shot. What a killed
program leaves, the next start saves.
"""

import json
import os
import time
from collections.abc import Iterable, Mapping
from datetime import time as clock
from itertools import count
from typing import Any, NamedTuple

from fitlog.workspace.files import read_bytes, remove, write_whole
from fitlog.workspace.layout import OWN_FOLDER

_FOLDER = f"{OWN_FOLDER}/shots"
_numbers = count()


class TypedShot(NamedTuple):
    """A typed shot, with the ``text`` as typed.

    ``shot`` has its id and time already, so that it is saved once however often it is tried.
    """

    name: str
    player: str
    test_ref: str
    shot: Mapping[str, Any]
    text: str


def keep(root: str, player: str, test_ref: str, shot: Mapping[str, Any], text: str) -> TypedShot:
    """Write a typed shot down.

    Raises Refusal where the disk refuses.
    """
    name = f"{_FOLDER}/{time.time_ns():020d}-{os.getpid()}-{next(_numbers):06d}.json"
    sentence = {"player": player, "test": test_ref, "shot": dict(shot), "text": text}
    write_whole(root, name, json.dumps(sentence, default=str, ensure_ascii=False).encode())
    return TypedShot(name, player, test_ref, shot, text)


def read_all(root: str) -> list[TypedShot]:
    """All shots that wait, in the order they were typed."""
    try:
        names = sorted(each for each in os.listdir(os.path.join(root, _FOLDER)) if each.endswith(".json"))
    except OSError:
        return []
    return [found for each in names if (found := _read(root, f"{_FOLDER}/{each}"))]


def drop(root: str, names: Iterable[str]) -> None:
    """Take shots off the list: they are saved, or back in the line."""
    for name in names:
        remove(root, name)


def _read(root: str, name: str) -> TypedShot | None:
    """One shot as it was written down; None for one that is gone or no file of ours."""
    data = read_bytes(root, name)
    try:
        found = json.loads(data or b"")
        shot = dict(found["shot"])
        if "at" in shot:
            shot["at"] = clock.fromisoformat(shot["at"])
        return TypedShot(name, str(found["player"]), str(found["test"]), shot, str(found["text"]))
    except (ValueError, TypeError, KeyError):
        return None
