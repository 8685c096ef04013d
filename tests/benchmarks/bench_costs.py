"""Cost grows with the work, not faster: ``python -m tests.benchmarks.bench_costs``.

Each job is done at a tenth of its size and at its size; a ratio far above ten is a square hiding somewhere. The time
is the processor's; a second process reads two thirds of the files of a first index beside it.
"""

import argparse
import os
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from random import Random

from fitlog.actions import player
from fitlog.actions.bag import edit
from fitlog.actions.session import import_file, setup
from fitlog.actions.workspace import commit_edits, create
from fitlog.records.models.importer import Column, Importer
from fitlog.saving.desk import Desk
from fitlog.views.board.players import list_players
from fitlog.views.search import finder
from fitlog.views.session.shot_file import look_into
from fitlog.views.workspace.hand_edits import hand_edits
from tests.benchmarks import large

KEYS = ("carry_yd", "offline_yd", "ball_speed_mph", "head_speed_mph", "launch_deg", "spin_rpm", "peak_height_yd")
USUAL = ((230, 8), (0, 9), (150, 3), (100, 3), (12, 1), (3500, 200), (30, 2))
CLUB = '[[club]]\nslot = "{slot}"\nid = "{id:05}"\nlength_in = 43.0\nhead.model = "Alder {model}"\n'


def fresh(folder: str) -> Desk:
    """A workspace with one player and a 3w."""
    desk = Desk(os.path.join(folder, "ws"))
    create.init(desk, "van")
    player.add_player(desk, "mo", "Mo", "right")
    edit.bag_set(desk, "mo", "3w", {"head.model": "Alder", "length_in": 43.0}, "new")
    return desk


def timed(work: Callable[[], object]) -> float:
    """Seconds of this process's processor that it takes: other programs at work do not count."""
    begun = time.process_time()
    work()
    return time.process_time() - begun


def import_rows(folder: str, rows: int) -> float:
    """Import so many rows of seven columns into a test."""
    chance = Random(1)
    path = Path(folder, "x.csv")
    lines = [",".join(f"{chance.gauss(*usual):.1f}" for usual in USUAL) for _ in range(rows)]
    path.write_text("\n".join([",".join(KEYS), *lines]) + "\n")
    with fresh(folder) as desk:
        import_file.save_importer(desk, "bay", Importer("Bay", column=tuple(Column(key, key) for key in KEYS)))
        where = setup.start_test(desk, "mo", "3w").ref
        return timed(lambda: import_file.import_shots(desk, "mo", where, look_into(desk, str(path), "bay")))


def write_bag(desk: Desk, clubs: int) -> None:
    """Write a bag by hand."""
    rows = (CLUB.format(slot=f"x{number}", id=number, model=number % 7) for number in range(clubs))
    Path(desk.root, "players/mo/bag.toml").write_text("\n".join(['season = "2026"', *rows]))


def describe_edits(folder: str, clubs: int) -> float:
    """Tell what was edited by hand: so many new clubs."""
    with fresh(folder) as desk:
        write_bag(desk, clubs)
        return timed(lambda: hand_edits(desk))


def save_in_bag(folder: str, clubs: int) -> float:
    """Save one value in a bag of so many clubs, for the second time."""
    with fresh(folder) as desk:
        write_bag(desk, clubs)
        commit_edits.commit_hand_edits(desk, "by hand")
        edit.bag_set(desk, "mo", "x5#00005", {"length_in": 42.0}, "once")
        return timed(lambda: edit.bag_set(desk, "mo", "x5#00005", {"length_in": 42.5}, "twice"))


def build_index(folder: str, sessions: int) -> float:
    """Build the index of so many sessions for the first time."""
    root = os.path.join(folder, "ws")
    large.make(root, 20, sessions // 20, 20)
    with Desk(root) as desk:
        return timed(lambda: finder.find(desk, "alder"))


def list_board(folder: str, players: int) -> float:
    """Read the rows of the Board of so many players."""
    root = os.path.join(folder, "ws")
    large.make(root, players, 1, 1)
    with Desk(root) as desk:
        return timed(lambda: list_players(desk))


JOBS = {
    "import of rows": (import_rows, 19_990, 3.0),
    "edits: new clubs": (describe_edits, 10_000, 3.0),
    "save in a bag of clubs": (save_in_bag, 10_000, 1.0),
    "first index of sessions": (build_index, 20_000, 8.0),
    "board of players": (list_board, 1_000, 1.0),
}


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("jobs", nargs="*", help="only jobs whose name holds one of these words")
    given = parser.parse_args().jobs
    for name, (job, size, wanted) in JOBS.items():
        if given and not any(word in name for word in given):
            continue
        took = []
        for each in (size // 10, size):
            with tempfile.TemporaryDirectory() as folder:
                took.append(job(folder, each))
        print(
            f"{name:<26}{size:>7,}: {took[1]:6.2f} s (wanted: {wanted:g}), {took[1] / took[0]:5.1f} × a tenth of it"
        )


if __name__ == "__main__":
    main()
