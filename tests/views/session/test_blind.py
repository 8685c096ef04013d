"""What a plan hides: no door tells an outcome or a club before all planned shots are hit."""

import json
import re
from pathlib import Path
from random import Random

import pytest

from fitlog.actions.bag.edit import bag_set
from fitlog.actions.session.shots import add_shots, end_shots
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


CARRIES = (243.1, 217.9)  # by code: figures that stand nowhere else


SETUP = "tip trim 0 → 1.25 in"


@pytest.fixture
def blind(fitlog: Run, desk: Desk) -> tuple[str, str, str]:
    """A session with a blind plan of two clubs, five shots each, seven hit; its reference and candidate."""
    base = str(fitlog("test", "mo", "3w", "--reference", "--json").json["ref"])
    test = str(fitlog("test", "mo", "3w", "--set", "shaft.tip_trim_in=1.25", "--json").json["ref"])
    session = base.partition("#")[0]
    made = fitlog("plan", "mo", session, "--shots", "5", "--blind", "--json").json
    assert made["differences"] == []
    assert made["tests"] == sorted(made["tests"])  # not in the order of the codes
    for _ in range(7):
        hit_next(fitlog, desk, session)
    return session, base, test


def hit_next(fitlog: Run, desk: Desk, session: str) -> None:
    (plan,) = fitlog("plan", "mo", session, "--key", "--json").json["plans"]
    place = ord(plan["next"]) - ord("A")
    values = {"carry_yd": CARRIES[place], "offline_yd": 1.0}
    add_shots(desk, "mo", f"{session}#{plan['plan']['tests'][place]}", [values])
    end_shots(desk)


OUTPUTS = (
    ("session", "mo"), ("session", "mo", "--json"), ("compare", "mo"), ("compare", "mo", "--json"),
    ("compare", "mo", "--all"), ("history", "mo"), ("history", "mo", "--json"), ("history", "mo", "--raw"),
    ("find", "--player", "mo", "--what", "test"), ("find", "--player", "mo", "--json"), ("next", "mo"),
    ("next", "mo", "--json"), ("plan", "mo"), ("plan", "mo", "--json"), ("report", "day"), ("predictions",),
)  # fmt: skip


@pytest.mark.parametrize("command", OUTPUTS, ids=" ".join)
def test_nothing_tells_an_outcome_or_a_club(
    fitlog: Run, desk: Desk, blind: tuple[str, str, str], command: tuple[str, ...]
) -> None:
    ran = fitlog(*command)
    lines = ran.out + ran.err
    assert ran.status in (0, 1), lines
    figures = re.sub(r"\b[0-9a-f]{40}\b", "", lines)  # a commit's id has any digits
    for carry in CARRIES:
        assert str(carry) not in figures
        assert f"{carry:.0f}" not in figures
    ids = [ref.partition("#")[2] for ref in blind[1:]]
    for line in lines.splitlines():
        message = "club A" in line or "club B" in line or '"code"' in line
        assert not (message and any(each in line for each in ids)), line


def test_an_export_holds_none_of_its_shots(fitlog: Run, blind: tuple[str, str, str], tmp_path: Path) -> None:
    path = tmp_path / "shots.csv"
    fitlog("export", str(path))
    assert not path.exists() or all(ref.partition("#")[2] not in path.read_text() for ref in blind[1:])


def test_how_many_were_hit_is_told_by_code_alone(fitlog: Run, blind: tuple[str, str, str]) -> None:
    session, base, test = blind
    lines = fitlog("session", "mo", session).out
    assert "3w club A" in lines
    assert SETUP not in lines
    compared = fitlog("compare", "mo", session).out
    assert "club A" not in compared
    assert "club B" not in compared  # a candidate's code would tell it
    table = fitlog("session", "mo", session, "--json").json
    assert [row["code"] for row in table["test"]] == ["A", "B"]
    assert sum(len(row["shots"]) for row in table["test"]) == 7
    assert all(set(shot) == {"id"} for row in table["test"] for shot in row["shots"])
    text = json.dumps(table)
    assert base.partition("#")[2] not in text
    assert test.partition("#")[2] not in text


def test_all_is_told_once_every_shot_is_hit(fitlog: Run, desk: Desk, blind: tuple[str, str, str]) -> None:
    session, _, test = blind
    for _ in range(3):
        hit_next(fitlog, desk, session)
    assert "club A" not in fitlog("session", "mo", session).out
    assert test in fitlog("compare", "mo", session).out
    assert "243.1" in fitlog("session", "mo", session).out


def test_shots_from_a_folder_and_a_file_tell_neither_club_nor_numbers(
    desk: Desk, blind: tuple[str, str, str], tmp_path: Path
) -> None:
    from fitlog.actions.session.watch import take_arrival
    from fitlog.views.session.folder_watch import Arrival
    from fitlog.views.session.groups import place_group, plan_file
    from fitlog.views.session.shot_file import look_into

    path = tmp_path / "a.csv"
    path.write_text("Club,Carry\n3 Wood,231\n3 Wood,232\n", encoding="utf-8")
    plan = plan_file(desk, "mo", look_into(desk, str(path)), blind[0])
    for where in blind[1:]:
        (placed,) = place_group(desk, plan, "3 Wood", where).groups
        assert placed.where == f"3w, a blind test of {where[:10]}"
    taken = take_arrival(desk, "mo", Arrival(str(path), "", ({"carry_yd": 231.0},)), blind[1])
    assert taken.is_hidden
    assert taken.name in ("3w club A", "3w club B")
