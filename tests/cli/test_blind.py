"""A blind plan: until it is opened nothing that fitlog prints tells an outcome, or which club is which."""

import json
import re
from pathlib import Path

import pytest

from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.saving.desk import Desk
from tests.cli.conftest import Run

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
    shown = ran.out + ran.err
    assert ran.status in (0, 1), shown
    figures = re.sub(r"\b[0-9a-f]{40}\b", "", shown)  # a commit's id has any digits
    for carry in CARRIES:
        assert str(carry) not in figures
        assert f"{carry:.0f}" not in figures
    ids = [ref.partition("#")[2] for ref in blind[1:]]
    for line in shown.splitlines():
        told = "club A" in line or "club B" in line or '"code"' in line
        assert not (told and any(each in line for each in ids)), line


def test_an_export_holds_none_of_its_shots(fitlog: Run, blind: tuple[str, str, str], tmp_path: Path) -> None:
    path = tmp_path / "shots.csv"
    fitlog("export", str(path))
    assert not path.exists() or all(ref.partition("#")[2] not in path.read_text() for ref in blind[1:])


def test_how_many_were_hit_is_told_by_code_alone(fitlog: Run, blind: tuple[str, str, str]) -> None:
    session, base, test = blind
    shown = fitlog("session", "mo", session).out
    assert "3w club A" in shown
    assert SETUP not in shown
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
    from fitlog.views.session.groups import place_group, plan_file
    from fitlog.views.session.shot_file import look_into
    from fitlog.views.session.watching import Arrival

    path = tmp_path / "a.csv"
    path.write_text("Club,Carry\n3 Wood,231\n3 Wood,232\n", encoding="utf-8")
    plan = plan_file(desk, "mo", look_into(desk, str(path)), blind[0])
    for where in blind[1:]:
        (placed,) = place_group(desk, plan, "3 Wood", where).groups
        assert placed.where == "3w, a blind test"
    taken = take_arrival(desk, "mo", Arrival(str(path), "", ({"carry_yd": 231.0},)), blind[1])
    assert taken.is_hidden
    assert taken.name in ("3w club A", "3w club B")
