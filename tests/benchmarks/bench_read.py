"""How long what the screens show takes on a large workspace beside a small one.

``python -m tests.benchmarks.bench_read`` prints medians of one run; small and large take turns. Below stand raw reads
of files and of git, to hold ours against.
"""

import argparse
import os
import subprocess
import tomllib

from fitlog.actions.workspace.upkeep import tend_if_due
from fitlog.saving.desk import Desk
from fitlog.views.bag import checks, overview
from fitlog.views.board import players
from fitlog.views.board.summary import summarize_player
from fitlog.views.history import timeline, why
from fitlog.views.search import finder
from fitlog.views.verdict.pending import pending_tests
from fitlog.workspace.layout import bag_file
from tests.benchmarks.timing import Call, medians, workspaces

_FIRST_PAGE = 4  # as many players as the small workspace has


def calls_in(desk: Desk) -> dict[str, Call]:
    """What each screen asks for, by name."""
    ids = desk.workspace.players()
    player = ids[len(ids) // 2]
    bag = os.path.join(desk.root, bag_file(player))

    def raw_bag() -> object:
        with open(bag, "rb") as file:
            return tomllib.load(file)

    def git(*args: str) -> Call:
        return lambda: subprocess.run(["git", *args], cwd=desk.root, check=True, capture_output=True)

    finder.find(desk)
    tend_if_due(desk)
    return {
        "board: a page of players": lambda: [
            players.player_row(desk, each) for each in desk.workspace.players()[:_FIRST_PAGE]
        ],
        "board: a player's summary": lambda: summarize_player(desk, player),
        "bag: clubs": lambda: overview.bag_overview(desk, player),
        "bag: what to look at": lambda: overview.remarks(desk, player),
        "bag: ages of evidence": lambda: checks.evidence_ages(desk, player),
        "timeline: first page": lambda: timeline.timeline(desk, player, limit=10),
        "timeline: of a slot": lambda: timeline.timeline(desk, player, "3w", limit=2),
        "why: a value": lambda: why.value_history(desk, player, "driver", "length_in"),
        "why: all values of a club": lambda: why.value_origins(desk, player, "driver", ""),
        "open tests": lambda: list(pending_tests(desk, player)),
        "find: a part, rejected": lambda: finder.find(desk, part="crake", verdict="reject", limit=100, fresh=True),
        "find: words": lambda: finder.find(desk, "toe", limit=100, fresh=True),
        "find: a number": lambda: finder.find(desk, where=["tip_trim_in >= 1"], limit=100, fresh=True),
        "find: reasons of a part": lambda: finder.part_records(desk, "crake", fresh=True),
        "find: stale evidence": lambda: finder.stale_after_ball(desk, fresh=True),
        "index: nothing changed": lambda: finder.query_index(desk, lambda index: index.commit),
        "raw: a bag by tomllib": raw_bag,
        "raw: git log of a bag": git("log", "--format=%H", "--", bag_file(player)),
        "raw: git log of a player, 10": git("log", "--format=%H", "--max-count=10", "--", f"players/{player}"),
        "raw: git status": git("status", "--porcelain"),
        "raw: git rev-parse": git("rev-parse", "HEAD"),
    }


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--players", type=int, default=200)
    parser.add_argument("--sessions", type=int, default=100)
    parser.add_argument("--commits", type=int, default=20400)
    parser.add_argument("--rounds", type=int, default=9)
    args = parser.parse_args()
    with (
        workspaces(args.players, args.sessions, args.commits) as roots,
        Desk(roots[0]) as small,
        Desk(roots[1]) as big,
    ):
        ways = {"small": calls_in(small), "large": calls_in(big)}
        print(f"{'':<28}{'small':>12}{'large':>12}   large / small (wanted: at most 2)")
        for name in ways["small"]:
            found = medians({size: calls[name] for size, calls in ways.items()}, args.rounds, warm=1)
            ratio = found["large"] / found["small"]
            print(f"{name:<28}{found['small']:9.2f} ms{found['large']:9.2f} ms{ratio:9.2f}×")


if __name__ == "__main__":
    main()
