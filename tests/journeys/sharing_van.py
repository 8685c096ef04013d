"""A van that shares, as a program of its own: saves, restores and syncs without end, each said aloud once done."""

import sys
from itertools import count

from fitlog.actions.bag import edit
from fitlog.actions.history import restore
from fitlog.records.errors import FitlogError
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.sync import exchange


def main(root: str, name: str) -> None:
    """Log and sync until killed."""
    with Desk(root) as desk:
        save.recover(desk)
        for number in count():
            try:
                if number % 4 == 3:
                    done = restore.restore(desk, "mo", ["driver"], "last-proven", f"{name} went back {number}")
                else:
                    length = 36 + (number % 40) / 8
                    slot = "7i" if number % 2 else "3w"
                    done = edit.bag_set(desk, "mo", slot, {"length_in": length}, f"{name} {number}")
                print(f"save {done.commit}", flush=True)
                print(f"sync {exchange.sync(desk).unsent}", flush=True)
            except FitlogError as error:
                print(f"error {error}", flush=True)


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2])
