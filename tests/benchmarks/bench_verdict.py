"""What the data of the Verdict screen cost in CPU time: five candidates and a reference, sixty shots each.

``python -m tests.benchmarks.bench_verdict`` prints medians of one process; ``--profile`` where the time goes. CPU
time, so that a busy machine counts little.
"""

import argparse
import cProfile
import pstats
import random
import tempfile
import time
from pathlib import Path
from statistics import median

from fitlog.actions.player import add_player
from fitlog.actions.workspace import create
from fitlog.saving.desk import Desk
from fitlog.views.verdict import preview
from fitlog.views.verdict.evidence import compare
from tests.benchmarks.timing import Call

CANDIDATES, SHOTS = 5, 60
SESSION = "2026-04-18-aaa"


def session_text(seed: int = 1) -> str:
    """A session of a reference and five candidates, clubs in turn, every quantity measured."""
    rng = random.Random(seed)
    out = ["date = 2026-04-18", "air.temperature_c = 14.0"]
    names = ["rrr", *(f"c{number}c" for number in range(CANDIDATES))]
    for place, name in enumerate(names):
        rows = []
        for shot in range(SHOTS):
            second = (shot * len(names) + place) * 20
            at = f"{9 + second // 3600:02}:{second // 60 % 60:02}:{second % 60:02}"
            speed, launch = rng.gauss(150 + place, 2), rng.gauss(12.5, 1)
            spin, carry, off = rng.gauss(2700, 250), rng.gauss(240 + 2 * place, 6), rng.gauss(0, 12)
            rows.append(
                f'  {{id = "s{shot:03}", at = {at}, ball_speed_mph = {speed:.1f},'
                f" head_speed_mph = {speed / 1.47:.1f}, launch_deg = {launch:.1f}, spin_rpm = {spin:.0f},"
                f" spin_axis_deg = {off / 4:.1f},"
                f" direction_deg = {off / 8:.1f}, carry_yd = {carry:.1f}, offline_yd = {off:.1f}}},"
            )
        role = "reference" if name == "rrr" else "candidate"
        out += ["[[test]]", f'id = "{name}"', 'slot = "driver"', f'role = "{role}"']
        out += ['criteria = [{metric = "carry_yd", gain_at_least = 3.0}, {metric = "carry_yd", at_least = 245.0}]']
        out += ["shots = [", *rows, "]", 'setup.head.model = "Oak 8"', f"setup.length_in = {45.0 + place / 4}"]
    return "\n".join(out) + "\n"


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=9)
    parser.add_argument("--profile", action="store_true")
    args = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        desk = Desk(str(Path(folder, "ws")))
        create.init(desk, "Bench")
        add_player(desk, "mo", "Mo Ferrant", "left")
        sessions = Path(desk.root, "players/mo/sessions")
        sessions.mkdir(exist_ok=True)
        (sessions / f"{SESSION}.toml").write_text(session_text())
        calls: dict[str, Call] = {
            "a session's evidence": lambda: compare(desk, "mo", SESSION),
            "the Verdict screen's data": lambda: preview.preview_verdict(desk, "mo", f"{SESSION}#c0c"),
        }
        for name, call in calls.items():
            first = time.process_time()
            call()
            first = time.process_time() - first
            found = []
            for _ in range(args.rounds):
                start = time.process_time()
                call()
                found.append(time.process_time() - start)
            print(f"{name:<28} first {first * 1000:8.1f} ms, then {median(found) * 1000:8.1f} ms (wanted: 50)")
            if args.profile:
                profile = cProfile.Profile()
                profile.runcall(call)
                pstats.Stats(profile).sort_stats("cumulative").print_stats(35)
        desk.close()


if __name__ == "__main__":
    main()
