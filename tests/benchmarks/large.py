"""Large workspaces for measuring: N players × M sessions, and a history of as many commits as a busy van makes.

``python -m tests.benchmarks.large DIR --players 200 --sessions 100 --commits 20400``. The same call gives the same
files and the same commit ids anywhere. All names are invented.
"""

import argparse
import os
import subprocess
from collections.abc import Iterator, Sequence
from datetime import datetime, time, timedelta, timezone
from random import Random
from time import sleep as pause
from typing import NamedTuple

from fitlog.history.message import Message
from fitlog.history.plumbing.git import Git
from fitlog.history.plumbing.repository import init_repository
from fitlog.workspace.package_data import schema_files
from tests.benchmarks.text import bag_text, part_texts, player_text, session_text

FIRST = datetime(2016, 1, 4, 8, 0, tzinfo=timezone(timedelta(hours=1)))
YEARS_DAYS = 3650
_AUTHOR = "fitlog <fitlog@localhost>"


class Step(NamedTuple):
    """One commit to be: when, its files, its message."""

    when: datetime
    files: dict[str, str]
    message: Message


def make(root: str, players: int, sessions: int, commits: int = 0, seed: int = 1) -> None:
    """Make a workspace of this size at ``root``, its history whole and its files checked out.

    ``commits`` beyond one for each session, player and bag are further changes of the bags; with fewer, the earliest
    steps share the first commit.
    """
    os.makedirs(root)
    init_repository(root)
    steps = sorted(_steps(players, sessions, commits, Random(seed)), key=lambda step: step.when)
    shared = max(0, len(steps) - commits) if commits else 0
    if shared:
        files = {name: text for step in steps[: shared + 1] for name, text in step.files.items()}
        steps = [steps[0]._replace(files=files), *steps[shared + 1 :]]
    _import(root, steps)
    git = Git(root)
    try:
        git.run("reset", "--hard", "--quiet")
        pause(1.1)  # git looks inside every file written in the same second as its index, until it is told anew
        git.run("update-index", "-q", "--refresh")
    finally:
        git.close()


def _steps(players: int, sessions: int, commits: int, random: Random) -> Iterator[Step]:
    ids = [f"{_name(random)}-{number:04d}" for number in range(players)]
    files = {"workspace.toml": '#:schema schemas/workspace.schema.json\n\nname = "Large"\nschema = 1\n'}
    files |= {".gitignore": ".fitlog/\n", ".gitattributes": "* -text\n"}
    files |= {f"schemas/{name}": data.decode() for name, data in schema_files().items()}
    files |= part_texts()
    yield Step(FIRST, files, Message("New workspace: Large", "init"))
    more = max(0, commits - 1 - players * (sessions + 2))
    for number, player in enumerate(ids):
        extra = more // players + (number < more % players)
        yield from _player(player, number, sessions, extra, random)


def _player(player: str, number: int, sessions: int, extra: int, random: Random) -> Iterator[Step]:
    folder = f"players/{player}"
    came = FIRST + timedelta(hours=1 + number)
    name = player[:-5].replace("-", " ").title()
    files = {f"{folder}/player.toml": player_text(name, random), f"{folder}/bag.toml": bag_text(player, [], 0)}
    yield Step(came, files, Message(f"New player: {name}, right-handed", "player-add", players=[player]))
    kept: list[tuple[str, str]] = []
    for place in range(sessions):
        day = came + timedelta(days=1 + place * (YEARS_DAYS - 40) // max(sessions, 1), minutes=random.randrange(600))
        session = f"{day.date().isoformat()}-{_letters(random)}"
        text, slot, test, decision, reason = session_text(day.date(), time(day.hour, day.minute), place, random)
        if decision == "keep":
            kept.append((slot, f"{session}#{test}"))
        message = Message(
            f"{(decision or 'test').capitalize()} {slot}: {session}",
            decision or "test",
            reason,
            [player],
            [slot],
            [f"{session}#{test}"],
        )
        yield Step(day, {f"{folder}/sessions/{session}.toml": text}, message)
    for place in range(extra + 1):
        day = came + timedelta(days=2 + (place + 1) * (YEARS_DAYS - 30) // (extra + 1), minutes=random.randrange(600))
        upto = [each for each in kept if each[1] < day.date().isoformat()]
        slot = random.choice(["driver", "3w", "7i", "pw"])
        message = Message(f"{slot}: length changed", "bag-set", random.choice(_WHY), [player], [slot])
        yield Step(day, {f"{folder}/bag.toml": bag_text(player, upto, place + 1)}, message)


_WHY = ("an inch too long off the tee", "matched to the 7i", "new season, new swing", "felt light after the regrip")
_SYLLABLES = ("ar", "bel", "cor", "dun", "esk", "fal", "gor", "hul", "ivo", "jes", "kel", "lom", "mir", "nor", "osk")


def _name(random: Random) -> str:
    return f"{random.choice(_SYLLABLES)}{random.choice(_SYLLABLES)}-{random.choice(_SYLLABLES)}ving"


def _letters(random: Random) -> str:
    return random.choice("bcdfghjkm") + "".join(random.choices("bcdfghjkmnpqrstvwxyz23456789", k=2))


def _import(root: str, steps: Sequence[Step]) -> None:
    """One ``git fast-import`` takes every commit."""
    args = ("git", "-c", "core.fsync=none", "-c", "fastimport.unpackLimit=0", "fast-import", "--quiet", "--done")
    with subprocess.Popen(args, cwd=root, stdin=subprocess.PIPE) as importer:
        assert importer.stdin
        for step in steps:
            stamp = f"{int(step.when.timestamp())} +0100"
            said = [f"commit refs/heads/main\nauthor {_AUTHOR} {stamp}\ncommitter {_AUTHOR} {stamp}\n".encode()]
            said.append(_data(step.message.text()))
            said += [f"M 100644 inline {name}\n".encode() + _data(text) for name, text in step.files.items()]
            importer.stdin.write(b"".join(said) + b"\n")
        importer.stdin.write(b"done\n")
    assert importer.returncode == 0


def _data(text: str) -> bytes:
    data = text.encode()
    return b"data %d\n%s\n" % (len(data), data)


def main() -> None:
    """Make one from the shell."""
    parser = argparse.ArgumentParser(description="Make a large workspace for measuring.")
    parser.add_argument("dir")
    parser.add_argument("--players", type=int, default=200)
    parser.add_argument("--sessions", type=int, default=100)
    parser.add_argument("--commits", type=int, default=0, help="commits in all; 0 for one a step")
    args = parser.parse_args()
    make(args.dir, args.players, args.sessions, args.commits)


if __name__ == "__main__":
    main()
