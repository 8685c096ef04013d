"""A thousand again, in the long run only: ``pytest --long -n0 tests/journeys/test_stress.py``.

FITLOG_STRESS scales every number of rounds: 0.05 shows in a minute that the harness itself works.
"""

import os
import random
import time
from datetime import timedelta
from pathlib import Path

import pytest

from fitlog.cli.command_table import names as command_names
from fitlog.cli.main import main
from fitlog.index.rows import rows_of
from fitlog.records.errors import FitlogError
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.views.workspace import checks
from fitlog.workspace.layout import kind_of_file
from fitlog.workspace.parse import parse
from tests.actions.history.steps import files_of
from tests.conftest import SteadyClock
from tests.journeys import any_van
from tests.journeys.program import Program, kill_gits
from tests.journeys.terminal import Terminal
from tests.journeys.test_faults import git, recover, whole
from tests.saving.test_merge_comments import remarks
from tests.sync.vans import shared, van_of
from tests.sync.weeks import shots_in, start, take_step
from tests.tui.driving import Hands, drive

SHARE = float(os.environ.get("FITLOG_STRESS", "1"))
__all__ = ["start"]  # a fixture


@pytest.fixture(autouse=True)
def long_only(long: bool) -> None:
    if not long:
        pytest.skip("a stress of many minutes: with --long")


def rounds(number: int) -> range:
    return range(max(1, int(number * SHARE)))


# 1,000 kills over all actions, the app among them

HANDS = "jklhtsvu123456789/?bqed \t\r"


def test_killed_in_any_action_nothing_that_was_told_is_lost(desk: Desk, tmp_path: Path) -> None:
    chance = random.Random(5)
    bare = shared(tmp_path)
    exchange.sync(desk, str(bare))
    done: list[str] = []
    cut_short = 0
    for number in rounds(1000):
        done += _killed_app(desk, chance) if number % 10 == 9 else _killed_van(desk, chance, number)
        cut_short += recover(desk)
    log = set(git(desk, "log", "--format=%H").split())
    assert set(done) <= log
    assert "missing" not in git(desk, "fsck", "--no-dangling")
    seen = f"{cut_short} within a save, {len(done)} acknowledged actions, {len(log)} commits"
    print(f"{len(rounds(1000))} kills, {seen}, none lost")


def _killed_van(desk: Desk, chance: random.Random, number: int) -> list[str]:
    with Program(any_van.act, desk.root, number) as program:
        lines = [program.line()]
        time.sleep(chance.uniform(0, 0.3))
        lines += program.kill()
    if chance.random() < 0.5:
        kill_gits(desk.root)
    assert not [line for line in lines if line.startswith("failed")], lines
    return whole(lines, "done", 2)


def _killed_app(desk: Desk, chance: random.Random) -> list[str]:
    with Terminal(desk.root) as terminal:
        terminal.read(chance.uniform(0.3, 1.0))
        for _ in range(chance.randrange(12)):
            terminal.process.send(chance.choice(HANDS))
        terminal.read(chance.uniform(0, 0.3))
        terminal.process.kill(9)
    return []


# three replicas, 1,000 steps each


EDITS = [
    ("set", "length_in=41"), ("set", "lie_deg=58"), ("set", "shaft.model=Osier 75"), ("out", ""), ("makeup", "links"),
    ("beside", "length_in=40"), ("proven", ""), ("test", "length_in=40"), ("shots", ""), ("verdict", "keep"),
    ("verdict", "reject"), ("choose", "stands"), ("choose", "other"),
]  # fmt: skip


def test_three_replicas_with_clocks_apart_and_comments_converge(start: Desk, tmp_path: Path) -> None:
    chance = random.Random(6)
    bare = shared(tmp_path)
    desks = [van_of(start, tmp_path, f"van {number}", 40 + number, number * 60 * 24 * 9) for number in range(3)]
    hit: set[str] = set()
    written: set[str] = set()
    removed: set[str] = set()
    for number in rounds(3000):
        desk = chance.choice(desks)
        if chance.random() < 0.1:
            exchange.sync(desk, str(bare))
        elif chance.random() < 0.3:
            _comment(desk, chance, f"# c{number}.", written)
        else:
            before = _remarks(desk)
            what, value = chance.choice(EDITS)
            take_step(desk, what, chance.choice(["driver", "3w", "7i", "52"]), value)
            removed |= before - _remarks(desk)  # with the club or value that they stood at
            hit |= shots_in(desk)
        if number % 100 == 99:
            assert isinstance(desk.now, SteadyClock)
            desk.now.time += timedelta(days=chance.randrange(-2, 3))
    for desk in (*desks, *desks):
        assert exchange.sync(desk, str(bare)).offline == ""
    assert files_of(desks[0]) == files_of(desks[1]) == files_of(desks[2])
    assert shots_in(desks[0]) == hit
    assert checks.check(desks[0]).problems == ()
    lost = written - removed - _remarks(desks[0])
    assert not lost
    print(f"{len(rounds(3000))} steps, {len(hit)} shots, {len(written)} comments, none lost")
    for desk in desks:
        desk.close()


def _remarks(desk: Desk) -> set[str]:
    return remarks("".join(path.read_text() for path in Path(desk.root, "players").rglob("*.toml")))


def _comment(desk: Desk, chance: random.Random, words: str, written: set[str]) -> None:
    """By hand, a comment on a line of its own somewhere in the bag."""
    path = Path(desk.root, "players/mo/bag.toml")
    lines = path.read_text().splitlines()
    lines.insert(chance.randint(0, len(lines)), words)
    text = "\n".join(lines) + "\n"
    try:
        parse("players/mo/bag.toml", text.encode())
    except FitlogError:
        return
    path.write_text(text)
    written.add(words)


# 10,000 hostile files

SHOTS = 'shots = [\n    {id = "kkkk", at = 09:00:00, carry_yd = 230.0},\n]\n'
CRITERION = '[[criterion]]\nmetric = "carry_yd"\nat_least = 230.0\n'
FILES = {
    "players/mo/bag.toml": '[[club]]\nslot = "3w"\nlength_in = 43.0\nweights = [{place = "toe", mass_g = 4.0}]\n',
    "players/mo/player.toml": f'name = "Mo"\nhand = "left"\n\n{CRITERION}',
    "players/mo/sessions/2026-04-18-q7k.toml": f'date = 2026-04-18\n\n[[test]]\nid = "b4t"\nslot = "3w"\n{SHOTS}',
    "importers/bay.toml": 'name = "Bay"\n\n[[column]]\nheader = "Carry"\nkey = "carry_yd"\n',
    "workspace.toml": 'name = "Van"\nschema = 1\n',
    "parts/heads/oak.toml": 'kind = "wood"\nmodel = "Oak"\nmass_g = 200.0\n',
}
PIECES = [
    b"[[", b"]]", b"[", b"{", b"}", b'"""', b"'", b'"', b"=", b".", b"#", b"\n", b"\r", b"\x00", b"\xff",
    b"\xed\xa0\x80", b"nan", b"inf", b"-inf", b"1e999", b"9" * 400, b"0x" + b"f" * 40, b"1979-05-27T07:32:00Z",
    b"25:61:61", b"true", b"a." * 300, b"[" * 40, b"\\ud800", b"\\x41", "é\u2028\u202e".encode(), b"club", b"test",
    b"shots", b"setup", b"id", b"slot", b"-1", b"1e-320",
]  # fmt: skip


def test_any_bytes_are_read_or_refused_with_their_line(tmp_path: Path) -> None:
    chance = random.Random(7)
    refused = unnamed = 0
    slowest = 0.0
    for _ in rounds(10_000):
        name = chance.choice(list(FILES))
        data = FILES[name].encode()
        for _ in range(chance.randrange(1, 6)):
            at, cut = chance.randrange(len(data) + 1), chance.choice([0, 0, 1, 3, 20])
            data = data[:at] + chance.choice(PIECES) * chance.choice([1, 1, 1, 50]) + data[at + cut :]
        begun = time.perf_counter()
        try:
            parse(name, data)
        except FitlogError as error:
            refused += 1
            unnamed += name not in str(error)
        kind, inside = kind_of_file(name)
        if kind in ("bag", "session", "player", "part"):
            rows_of(kind, inside, data)
        slowest = max(slowest, time.perf_counter() - begun)
    assert unnamed == 0
    assert slowest < 5
    print(f"{len(rounds(10_000))} files, {refused} refused, none failed; slowest {slowest:.2f} s")


# 5,000 arguments

WORDS = [
    "mo", "3w", "driver", "last", "nobody", "", " ", "-", "--", "--json", "--set", "--reason", "why", "--limit",
    "99999999999999999999", "-1", "nan", "1e999", "\x00", "\udcff", "é" * 300, "../..", "/dev/null", "/dev/zero",
    "--at", "2026-13-45", "HEAD~1", "length_in=1", "length_in=", "=", "a.b.c=[", "x" * 5000, "--to", "last-proven",
    "--player", "--slot", "--where", "carry_yd > 1", "*", "[bold]", "\x1b[31m", "%s", "{}", "'", '"', "--help",
    "--since", "--format", "html", "--shot", "230 4L", "--from", "bag", "keep", "reject",
]  # fmt: skip


def test_any_arguments_end_in_a_sentence(
    desk: Desk, capfd: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    chance = random.Random(8)
    monkeypatch.chdir(tmp_path)
    commands = [each for each in command_names() if each not in ("watch", "demo")]
    ends = dict.fromkeys(range(3), 0)
    for _ in rounds(5000):
        argv = [*chance.choice(commands).split(), *chance.choices(WORDS, k=chance.randrange(7))]
        try:
            status = main(["-w", desk.root, *argv])
        except SystemExit as left:
            status = int(left.code or 0)
        said = capfd.readouterr()
        assert status in (0, 1, 2), (argv, status)
        assert "Traceback" not in said.err, (argv, said.err)
        assert "did not expect" not in said.err, (argv, said.err)
        assert status == 0 or said.err or said.out, argv
        ends[status] += 1
    assert checks.check(desk).problems == ()
    print(f"{len(rounds(5000))} calls ended {ends}, none in a traceback")


# 5,000 keys

KEYS = [
    *"abcdefghijklmnopqrstuvwxyz0123456789/?+-=.,# '", "enter", "enter", "escape", "escape", "tab", "up", "down",
    "left", "right", "pageup", "pagedown", "home", "end", "backspace", "ctrl+p", "f1",
]  # fmt: skip


def test_any_keys_leave_the_files_sound_and_write_no_crash(desk: Desk) -> None:
    chance = random.Random(9)
    left = list(rounds(5000))

    async def story(hands: Hands) -> None:
        while left and hands.app.is_running:  # some keys leave the app, as they should
            left.pop()
            await hands.press(chance.choice(KEYS))

    visits = 0
    while left:
        drive(desk, story, size=(100, 34))
        visits += 1
    log = Path(desk.root, ".fitlog/crash.log")
    assert not log.exists(), log.read_text()[-3000:]
    save.recover(desk)
    assert checks.check(desk).problems == ()
    assert desk.history.changed_files() == []
    print(f"{len(rounds(5000))} keys in {visits} visits, no crash")
