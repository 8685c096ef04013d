"""How long one of several writers waits for its turn: ``python -m tests.benchmarks.bench_lock --writers 6``."""

import argparse
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

from fitlog.workspace.safety.lock import hold_lock
from tests.benchmarks.large import make


def write(root: str, player: str, rounds: int) -> None:
    """Save again and again as one of the writers; print each wait for the lock and each whole save, in seconds."""
    from fitlog.actions.bag import edit
    from fitlog.saving.desk import Desk

    with Desk(root) as desk:
        edit.bag_set(desk, player, "driver", {"notes": "ready"}, "to begin")  # what loads once is loaded
        for number in range(rounds):
            start = time.perf_counter()
            edit.bag_set(desk, player, "driver", {"notes": f"note {number}"}, "a try")
            print(f"{time.perf_counter() - start:.4f}", flush=True)


def main() -> None:
    """Print median and worst time from asking to save until it is saved."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--writers", type=int, default=6)
    parser.add_argument("--rounds", type=int, default=40)
    parser.add_argument("--write", nargs=3, metavar=("ROOT", "PLAYER", "ROUNDS"), help=argparse.SUPPRESS)
    args = parser.parse_args()
    if args.write:
        write(args.write[0], args.write[1], int(args.write[2]))
        return
    with tempfile.TemporaryDirectory() as folder:
        root = str(Path(folder, "ws"))
        make(root, args.writers, 3)
        players = sorted(path.name for path in Path(root, "players").iterdir())
        call = [sys.executable, "-m", "tests.benchmarks.bench_lock", "--write", root]
        with hold_lock(root):  # all start together
            writers = [
                subprocess.Popen([*call, player, str(args.rounds)], stdout=subprocess.PIPE, text=True)
                for player in players
            ]
            time.sleep(2)
        saves = sorted(float(line) for each in writers for line in each.communicate()[0].split())
    print(f"{args.writers} writers, {len(saves)} saves: median {median(saves):.3f} s, worst {saves[-1]:.3f} s")


if __name__ == "__main__":
    main()
