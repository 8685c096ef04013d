"""Every door that prints numbers of the flight model says which model that is: the one chosen in workspace.toml."""

from pathlib import Path
from random import Random

import pytest

from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.saving.desk import Desk
from fitlog.tui.verdict.text import evidence_lines
from fitlog.views.bag.checks import carries
from fitlog.views.bag.ladder import build_ladder
from fitlog.views.verdict.preview import preview_verdict
from tests.cli.conftest import Run
from tests.tui.bag.test_ladder import view
from tests.views.session.test_blind import club_test, session, shots, write

CHOSEN = "ferguson-2022"
LAUNCH = ("--ball-speed", "150", "--launch", "13", "--spin", "2700")
OLD, NEW = "2025-04-12-abc", "2026-04-18-bcd"
DOORS = (
    ("calc", "flight", *LAUNCH), ("calc", "flight", *LAUNCH, "--json"),
    ("calc", "what-if", *LAUNCH, "--more-loft", "1"), ("calc", "what-if", *LAUNCH, "--more-loft", "1", "--json"),
    ("calc", "lofts", *LAUNCH), ("calc", "lofts", *LAUNCH, "--json"),
    ("calc", "what-if", "--of", "mo", f"{OLD}#e3w", "--more-loft", "1"),
    ("optimum", "mo", "3w"), ("optimum", "mo", "3w", "--json"),
    ("carries", "mo"), ("carries", "mo", "--json"), ("gaps", "mo"), ("gaps", "mo", "--json"), ("findings", "mo"),
    ("compare", "mo", NEW), ("compare", "mo", NEW, "--json"), ("decide-again", "mo", f"{NEW}#CANDIDATE"),
    ("report", "verdict", "mo", f"{NEW}#CANDIDATE"), ("report", "bag", "mo"), ("report", "carries", "mo"),
    ("report", "season", "mo", "HEAD~2"), ("ball", "mo", "--tune", "--reason", "a new season"),
)  # fmt: skip


def measured(seed: int, count: int, carry: float) -> str:
    """Shots with their air known and all of the launch."""
    return shots(Random(seed), count, carry, 0)


@pytest.fixture
def candidate(desk: Desk, fitlog: Run) -> str:
    """Two days' tests that two clubs rest on, and a decided candidate of another loft, with its prediction."""
    with open(Path(desk.root, "workspace.toml"), "a", encoding="utf-8") as file:
        file.write(f'\nflight_model = "{CHOSEN}"\n')
    write(desk, OLD, session("2025-04-12", [club_test("e3w", "3w", "reference", 43.0, measured(1, 8, 214), "")]))
    iron = club_test("e7i", "3w", "reference", 43.0, measured(2, 8, 240), "")
    write(desk, NEW, session("2026-04-18", [iron]))
    bag = Path(desk.root, "players/mo/bag.toml")
    text = bag.read_text(encoding="utf-8")
    for slot, test in (("3w", f"{OLD}#e3w"), ("7i", f"{NEW}#e7i")):
        at = text.index(f'slot = "{slot}"')
        text = f'{text[:at]}evidence = ["{test}"]\n{text[at:]}'
    bag.write_text(f'ball.model = "Reed"\n{text}', encoding="utf-8")
    assert fitlog("edits", "--reason", "typed up from paper").status == 0
    ref = start_test(desk, "mo", "3w", session=NEW, values={"head.loft_deg": 17.5}).ref
    rng = Random(3)
    values = [
        {
            "ball_speed_mph": round(rng.gauss(139, 1), 1), "launch_deg": round(rng.gauss(15, 1), 1),
            "spin_rpm": round(rng.gauss(3800, 150)), "carry_yd": round(rng.gauss(170, 3), 1),
        }
        for _ in range(8)
    ]  # fmt: skip
    add_shots(desk, "mo", ref, values)
    end_shots(desk)
    assert fitlog("verdict", "mo", ref, "reject", "--reason", "too short").status == 0
    return ref


def test_every_door_names_the_model(fitlog: Run, desk: Desk, candidate: str) -> None:
    silent = []
    for door in DOORS:
        ran = fitlog(*(each.replace(f"{NEW}#CANDIDATE", candidate) for each in door))
        assert ran.status == 0, (door, ran.err)
        if CHOSEN not in ran.out + ran.err:
            silent.append(" ".join(door))
    assert silent == []


def test_the_screens_name_it_too(desk: Desk, candidate: str) -> None:
    shown = preview_verdict(desk, "mo", candidate)
    assert shown.presentation is not None
    lines = [line.plain for line in evidence_lines(shown.presentation, [], 300)]
    computed = [line for line in lines if "flight model" in line]
    assert computed
    assert all(CHOSEN in line for line in computed)
    for kind in ("predicted", "computed"):
        assert any(CHOSEN in each for each in shown.presentation.section(kind)), kind
    assert any(CHOSEN in each for each in shown.presentation.section("limits"))  # carries far off what it computes
    known = carries(desk, "mo")
    views = [view(club.slot, 20.0) for club in desk.workspace.bag("mo").clubs]
    assert CHOSEN in build_ladder(views, list(known.values()), ()).about
