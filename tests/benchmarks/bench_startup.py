"""How long the shell commands take to start, against a bare interpreter and one git: ratios of medians in one run.

    python tests/benchmarks/bench_startup.py [ROUNDS]

The measure is ``fitlog bag PLAYER --json`` of a full bag over ``python -c pass`` plus one ``git rev-parse HEAD``; at
most 3. Byte code is cached, as it is in an installation, in a folder of the run's own.
"""

import io
import os
import subprocess
import sys
import tempfile
from collections.abc import Mapping
from contextlib import redirect_stdout
from pathlib import Path
from statistics import median
from time import perf_counter

from fitlog.cli.main import main

LIMIT = 3.0
ROUNDS = 40
HERE = Path(__file__).parents[2]
SLOTS = ("driver", "3w", "5h", *(f"{number}i" for number in range(4, 10)), "pw", "50", "54", "60", "putter")
CLUB = """
[[club]]
slot = "{slot}"
standing = "proven"
since = 2026-04-18
evidence = ["2026-04-18-q7k#b4t"]
head.model = "Oak {place}"
head.loft_deg = {loft}
head.mass_g = {mass}
shaft.model = "Gorse 60"
shaft.flex = "S"
shaft.mass_g = 62.5
shaft.tip_trim_in = 0.5
grip.model = "Fern"
grip.mass_g = 50
grip.rib = "round"
sleeve.position = "mid"
weights = [{{place = "toe", mass_g = 4.0}}]
length_in = {length}
loft_deg = {loft}
lie_deg = 58.5
readings.swing_weight = "D2.5"
readings.mass_g = 320
"""


def workspace(folder: str) -> str:
    """A workspace with one player and fourteen clubs, all in one commit by hand."""
    root = os.path.join(folder, "ws")
    main(["init", root, "--json"])
    main(["-w", root, "player", "add", "mo", "--name", "Mo Ferrant", "--hand", "left", "--json"])
    clubs = [
        CLUB.format(slot=slot, place=place, loft=9 + 3 * place, mass=200 + 5 * place, length=45.25 - place * 0.75)
        for place, slot in enumerate(SLOTS)
    ]
    Path(root, "players/mo/bag.toml").write_text('season = "2026"\n' + "".join(clubs))
    main(["-w", root, "edits", "--reason", "as brought", "--json"])
    return root


def measure(
    commands: Mapping[str, list[str]], rounds: int, environment: Mapping[str, str], root: str
) -> dict[str, float]:
    """Medians in milliseconds; the commands take turns, so that a busy moment hits all of them."""
    taken: dict[str, list[float]] = {name: [] for name in commands}
    for turn in range(rounds + 2):
        for name, argv in commands.items():
            start = perf_counter()
            subprocess.run(argv, env=dict(environment), cwd=root, check=True, stdout=subprocess.DEVNULL)
            if turn >= 2:  # the first rounds write the byte code
                taken[name].append((perf_counter() - start) * 1000)
    return {name: median(each) for name, each in taken.items()}


def run(rounds: int = ROUNDS) -> bool:
    """Measure and print; whether the limit is kept."""
    with tempfile.TemporaryDirectory(prefix="fitlog-bench-") as folder:
        with redirect_stdout(io.StringIO()):
            root = workspace(folder)
        # as the entry point that an installer writes
        program = Path(folder, "start.py")
        program.write_text("import re\nimport sys\nfrom fitlog.cli.main import run\nsys.exit(run())\n")
        environment = {**os.environ, "PYTHONPATH": str(HERE), "PYTHONPYCACHEPREFIX": os.path.join(folder, "cache")}
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        fitlog = [sys.executable, str(program), "-w", root]
        commands = {
            "python": [sys.executable, "-c", "pass"],
            "git": ["git", "rev-parse", "HEAD"],
            "bag --json": [*fitlog, "bag", "mo", "--json"],
            "bag": [*fitlog, "bag", "mo"],
            "players": [*fitlog, "players"],
            "history": [*fitlog, "history", "mo"],
            "calc air": [*fitlog, "calc", "air", "--temperature", "20"],
        }
        found = measure(commands, rounds, environment, root)
    base = found["python"] + found["git"]
    for name, taken in found.items():
        print(f"{name:12} {taken:7.1f} ms  {taken / base:5.2f}")
    kept = found["bag --json"] <= LIMIT * base
    print(f"bag --json is {found['bag --json'] / base:.2f} × of python and git; the limit is {LIMIT:g}")
    return kept


if __name__ == "__main__":
    sys.exit(0 if run(int(sys.argv[1]) if sys.argv[1:] else ROUNDS) else 1)
