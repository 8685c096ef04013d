"""A van that shares, as a program of its own: saves, restores and syncs, each said aloud once done."""

import time
from collections.abc import Iterable
from itertools import count

from fitlog.actions.bag import edit
from fitlog.actions.history import restore
from fitlog.records.errors import FitlogError
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.sync import exchange


def share(root: str, name: str, first: int = 0) -> None:
    """Log and sync until killed; another first number begins with other values, so that something is to save."""
    _share(root, name, count(first))


def share_steadily(root: str, name: str) -> None:
    """Log and sync until killed, resting as long as each sync took.

    On a busy machine a van that never rests leaves the other no gap to send in, for as long as it has patience.
    """
    _share(root, name, count(), rests=True)


def share_once(root: str, number: int) -> None:
    """One save and one sync."""
    _share(root, "step", [number])


def _share(root: str, name: str, numbers: Iterable[int], rests: bool = False) -> None:
    with Desk(root) as desk:
        save.recover(desk)
        for number in numbers:
            try:
                if number % 4 == 3:
                    done = restore.restore(desk, "mo", ["driver"], "last-proven", f"{name} went back {number}")
                else:
                    length = 36 + (number % 40) / 8
                    slot = "7i" if number % 2 else "3w"
                    done = edit.bag_set(desk, "mo", slot, {"length_in": length}, f"{name} {number}")
                print(f"save {done.commit}", flush=True)
                begun = time.monotonic()
                print(f"sync {exchange.sync(desk).unsent}", flush=True)
                time.sleep(time.monotonic() - begun if rests else 0)
            except FitlogError as error:
                print(f"error {error}", flush=True)
