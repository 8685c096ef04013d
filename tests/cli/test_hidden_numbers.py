"""Nothing printed hangs on what a plan hides: with other hidden shots every command says the same."""

import re
from pathlib import Path
from random import Random

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings
from tests.cli.conftest import Run

EARLIER, NOW = "2025-04-12-abc", "2026-04-18-bcd"
COMMANDS = (
    ("bag", "mo", "--json"), ("findings", "mo"), ("carries", "mo", "--json"),
    ("session", "mo", NOW, "--json"), ("compare", "mo", NOW), ("compare", "mo", "--all"),
    ("compare", "mo", NOW, "--over", NOW, EARLIER, "--json"),
    ("compare", "mo", "--against", f"{NOW}#r3w", f"{EARLIER}#e3w"),
    ("next", "mo", "--json"), ("predictions", "--json"), ("optimum", "mo", "3w"),
    ("optimum", "mo", "54"), ("optimum", "mo", "3w", "--test", f"{NOW}#r3w"),
    ("calc", "what-if", "--of", "mo", f"{NOW}#r3w", "--more-loft", "1"),
    ("calc", "lofts", "--of", "mo", f"{NOW}#c3w"), ("find", "--player", "mo", "--what", "test", "--json"),
    ("report", "bag", "mo"), ("report", "carries", "mo"),
    ("report", "day", "2026-04-18"), ("report", "season", "mo", "HEAD~1"), ("report", "verdict", "mo", NOW),
    ("check",), ("plan", "mo", NOW, "--json"),
)  # fmt: skip
REFUSED = (
    ("compare", "mo", "--against", f"{NOW}#r3w", f"{EARLIER}#e3w"), ("report", "verdict", "mo", NOW),
    ("optimum", "mo", "54"), ("optimum", "mo", "3w", "--test", f"{NOW}#r3w"),
    ("calc", "what-if", "--of", "mo", f"{NOW}#r3w", "--more-loft", "1"),
    ("calc", "lofts", "--of", "mo", f"{NOW}#c3w"),
)  # fmt: skip


SETUPS = {
    "3w": 'setup.head = {model = "Alder 16", loft_deg = 16.0}\nsetup.shaft = {model = "Gorse 70", tip_trim_in = 0.0}',
    "54": 'setup.head.model = "Furrow 54"',
}


def shots(rng: Random, count: int, carry: float, first: int) -> str:
    """So many shots, with all that any command could compute from."""
    rows = []
    for number in range(count):
        speed = rng.gauss(carry / 1.55, 1.5)
        rows.append(
            f'  {{id = "k{first + number:02}", at = 10:{first + number:02}:00, ball_speed_mph = {speed:.1f},'
            f" head_speed_mph = {speed / 1.45:.1f}, launch_deg = {rng.gauss(13, 1):.1f}, spin_rpm ="
            f" {rng.gauss(3600, 200):.0f}, carry_yd = {rng.gauss(carry, 4):.1f},"
            f" offline_yd = {rng.gauss(0, 8):.1f}}},"
        )
    return "\n".join(["shots = [", *rows, "]"])


def session(day: str, tests: list[str], plan: str = "") -> str:
    """A session's file: its tests, each as rows of text."""
    air = "air.temperature_c = 14.0\nair.pressure_hpa = 1010.0"
    return "\n".join([f"date = {day}", 'season = "2026"', air, 'ball.model = "Reed"', plan, *tests, ""])


def club_test(name: str, slot: str, role: str, length: float, hit: str, more: str = "") -> str:
    """One test of a session's file."""
    return "\n".join(
        [
            "[[test]]", f'id = "{name}"', f'slot = "{slot}"', f'role = "{role}"', more, SETUPS[slot],
            f"setup.length_in = {length}", hit,
        ]
    )  # fmt: skip


def hidden_session(seed: int) -> str:
    """Two blind plans, five of six and of six hit; the seed gives the hidden numbers."""
    rng = Random(seed)
    plans = "\n".join(
        f'[[plan]]\nslot = "{slot}"\nblind = true\ntests = ["r{slot}", "c{slot}"]\nsequence = "AAABBBBBBAAA"'
        for slot in ("3w", "54")
    )
    guess = 'guess = {by = "Mo", rows = [{metric = "carry_yd", change = 3.0, low = 0.0, high = 6.0}]}'
    tests = []
    for slot, carry, swing in (("3w", 215.0, ""), ("54", 60.0, 'swing = "half"')):
        for role, length, place in (("reference", 43.0 if slot == "3w" else 35.5, 0), ("candidate", 40.0, 1)):
            level = carry + (9 if rng.random() < 0.5 else -9) + seed
            extra = "\n".join([swing, "planned_shots = 6", guess if role == "candidate" else ""])
            hit = shots(rng, 5, level, 5 * place + (20 if slot == "54" else 0))
            tests.append(club_test(f"{role[0]}{slot}", slot, role, length, hit, extra))
    return session("2026-04-18", tests, plans)


def write(desk: Desk, name: str, text: str) -> None:
    folder = Path(desk.root, "players/mo/sessions")
    folder.mkdir(exist_ok=True)
    (folder / f"{name}.toml").write_text(text, encoding="utf-8")


@pytest.fixture
def two_days(fitlog: Run, desk: Desk) -> Run:
    """A year apart: an open test of the 3w as it is, and two blind plans that are not hit out."""
    bag_set(desk, "mo", "54", parse_settings(["head.model=Furrow 54", "length_in=35.5"]), "for the bunker")
    write(
        desk, EARLIER, session("2025-04-12", [club_test("e3w", "3w", "reference", 43.0, shots(Random(1), 8, 214, 0))])
    )
    write(desk, NOW, hidden_session(2))
    assert fitlog("edits", "--reason", "typed up from paper").status == 0
    return fitlog


def printed(run: Run) -> dict[str, str]:
    """What every command prints, ids and times of commits left out; a season sheet begins at one."""
    out = {}
    for command in COMMANDS:
        ran = run(*command)
        assert ran.status == (1 if command in REFUSED else 0), (command, ran.err)
        out[" ".join(command)] = re.sub(
            r"\b[0-9a-f]{7,40}\b|(?<=from )\d{4}-\d\d-\d\d(?= )|\d\d:\d\d(:\d\d)?", "", ran.out + ran.err
        )
    return out


def test_no_command_hangs_on_a_hidden_number(two_days: Run, desk: Desk) -> None:
    before = printed(two_days)
    write(desk, NOW, hidden_session(7))
    assert two_days("edits", "--reason", "typed up again").status == 0
    assert printed(two_days) == before
