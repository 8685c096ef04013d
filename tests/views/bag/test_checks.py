"""Findings about a player's bag in a workspace: only the sessions that evidence names are read."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitlog.actions.bag.edit import bag_set, set_ball
from fitlog.actions.session.setup import start_test
from fitlog.actions.session.shots import add_shots, end_shots
from fitlog.actions.verdict.decide import give_verdict
from fitlog.coherence.findings import Finding
from fitlog.records.errors import UsageError
from fitlog.records.models.session import Session
from fitlog.saving.desk import Desk
from fitlog.views.bag import checks
from fitlog.workspace.assignments import parse_settings
from tests.views.bench.stocked import mark, stocked


@pytest.fixture
def kept(desk: Desk) -> Desk:
    """A workspace whose driver was kept after a test of eight shots."""
    set_ball(stocked(desk), "mo", {"model": "Pith Soft"}, "the ball played")
    started = start_test(desk, "mo", "driver", values={"length_in": 44.75})
    shots = [{"carry_yd": 230.0 + n % 3} for n in range(8)]
    add_shots(desk, "mo", started.ref, shots)
    end_shots(desk)
    give_verdict(desk, "mo", started.ref, "keep", "straighter")
    return desk


def levels(found: list[Finding], slot: str, level: str) -> list[str]:
    return [each.sentence for each in found if (each.slot, each.level) == (slot, level)]


def test_a_kept_club_rests_on_its_test_until_the_ball_changes(kept: Desk) -> None:
    assert levels(checks.findings(kept, "mo"), "driver", "stale") == []
    set_ball(kept, "mo", {"model": "Pith Firm"}, "more spin")
    [message] = levels(checks.findings(kept, "mo"), "driver", "stale")
    assert message.endswith("is stale: ball Pith Soft → Pith Firm")
    assert checks.evidence_ages(kept, "mo")["driver"][0].stale


def test_tested_carries_by_slot(kept: Desk) -> None:
    found = checks.carries(kept, "mo")
    assert list(found) == ["driver"]
    assert found["driver"].n == 8
    assert found["driver"].mean_yd == pytest.approx((3 * 230 + 3 * 231 + 2 * 232) / 8)
    known, steps = checks.carry_ladder(checks.carries(kept, "mo"), kept.workspace.bag("mo"))
    assert ([each.slot for each in known], steps) == (["driver"], ())


def test_only_named_sessions_are_read(kept: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    start_test(kept, "mo", "7i", session="", values={"length_in": 36.5})
    folder = Path(kept.root) / "players/mo/sessions"
    (folder / "2020-01-01-zzz.toml").write_text("this is no toml")
    read: list[str] = []
    session = kept.workspace.session

    def watched(player: str, name: str) -> Session:
        read.append(name)
        return session(player, name)

    monkeypatch.setattr(kept.workspace, "session", watched)
    checks.findings(kept, "mo")
    assert len(read) == 1


def test_a_lost_or_broken_session_is_not_checked(kept: Desk) -> None:
    [file] = (Path(kept.root) / "players/mo/sessions").glob("*.toml")
    file.write_text("this is no toml")
    found = levels(checks.findings(kept, "mo"), "driver", "not checked")
    assert any("cannot be read" in each for each in found)
    file.unlink()
    found = levels(checks.findings(kept, "mo"), "driver", "not checked")
    assert any("cannot be read" in each for each in found)


def test_the_parts_volume_is_looked_at_and_the_swing_weight_computed(kept: Desk) -> None:
    found = checks.findings(kept, "mo")
    assert not any("head volume" in each for each in levels(found, "driver", "not checked"))
    assert any("head volume" in each for each in levels(found, "3w", "not checked"))
    driver = checks.known_clubs(kept, "mo")["driver"]
    assert driver.points is not None
    assert driver.points.source == "from components"


def test_a_club_too_long_and_a_make_up(kept: Desk) -> None:
    bag_set(kept, "mo", "3w", parse_settings(["length_in=48.5"]), "a try")
    [message] = levels(checks.findings(kept, "mo"), "3w", "rule")
    assert message.startswith("length 48.5 in is over the 48 in of Equipment Rules Part 2, 1c")
    with pytest.raises(UsageError, match="no make-up 'links'"):
        checks.findings(kept, "mo", "links")


def test_a_player_says_how_long_evidence_holds(kept: Desk) -> None:
    file = Path(kept.root) / "players/mo/player.toml"
    [session] = (Path(kept.root) / "players/mo/sessions").glob("*.toml")
    session.write_text(session.read_text().replace("date = 2026-04-18", "date = 2024-04-18"))
    assert levels(checks.findings(kept, "mo"), "driver", "stale") == []
    file.write_text(file.read_text() + "evidence_months = 12\n")
    [message] = levels(checks.findings(kept, "mo"), "driver", "stale")
    assert message.endswith("is stale: older than the player's 12 months")
    assert checks.carries(kept, "mo")["driver"].stale


def test_the_players_step_targets_are_held_against_the_set(kept: Desk) -> None:
    bag_set(kept, "mo", "8i", parse_settings(["head.model=Elm 8", "loft_deg=38.5", "length_in=36.5"]), "a set")
    file = Path(kept.root) / "players/mo/player.toml"
    file.write_text(file.read_text() + '[[step]]\nclubs = "iron"\nloft_deg = 4.0\nlength_in = 0.5\n')
    [message] = levels(checks.findings(kept, "mo"), "8i", "target")
    assert message.startswith("loft step from the 7i: 5.5° more, the player's step is 4°: off by +1.5°")


def test_carries_of_different_days_are_brought_to_the_reference_air(kept: Desk) -> None:
    """A seven-iron on another, colder day: its carry stands against the driver's in one air."""
    session = Path(kept.root) / "players/mo/sessions/2026-02-07-aaa.toml"
    launch = "ball_speed_mph = 115.0, launch_deg = 17.0, spin_rpm = 6500"
    rows = "\n".join(f'  {{id = "s{n:02}", carry_yd = {150.0 + n % 3}, {launch}}},' for n in range(8))
    session.write_text(
        f'date = 2026-02-07\nair.temperature_c = 2.0\n[[test]]\nid = "sss"\nslot = "7i"\nshots = [\n{rows}\n]\n'
    )
    bag = Path(kept.root) / "players/mo/bag.toml"
    text = bag.read_text()
    at = text.index('slot = "7i"')
    bag.write_text(text[:at] + 'evidence = ["2026-02-07-aaa#sss"]\n' + text[at:])
    found = checks.carries(kept, "mo")
    assert found["driver"].ratio is None  # nothing but its carry was measured
    assert found["7i"].ratio is not None
    assert 1.005 < found["7i"].ratio < 1.05  # 2 °C against the reference air's warmth
    assert found["7i"].mean_yd == pytest.approx((3 * 150 + 3 * 151 + 2 * 152) / 8)  # as measured


def test_the_findings_hold_gaps_of_different_days_in_the_reference_air(kept: Desk) -> None:
    """154 and 135.5 yd as measured at 2 °C and 30 °C: in one air they are over 20 yd apart, which makes a gap."""
    text = (Path(kept.root) / "players/mo/bag.toml").read_text()
    for day, slot, carry, warmth, launch in (
        ("2026-02-07", "7i", 154.0, 2.0, "ball_speed_mph = 115.0, launch_deg = 17.0, spin_rpm = 6500"),
        ("2026-06-07", "9i", 135.5, 30.0, "ball_speed_mph = 104.0, launch_deg = 20.0, spin_rpm = 8000"),
    ):
        rows = "\n".join(f'  {{id = "s{n:02}", carry_yd = {carry + n % 3 / 2}, {launch}}},' for n in range(8))
        air = f"air.temperature_c = {warmth}\nair.pressure_hpa = 1013.25"
        (Path(kept.root) / f"players/mo/sessions/{day}-aaa.toml").write_text(
            f'date = {day}\n{air}\n[[test]]\nid = "sss"\nslot = "{slot}"\nshots = [\n{rows}\n]\n'
        )
        if f'slot = "{slot}"' not in text:
            text += f'\n[[club]]\nslot = "{slot}"\nsetup.loft_deg = 41.0\n'
        at = text.index(f'slot = "{slot}"')
        text = text[:at] + f'evidence = ["{day}-aaa#sss"]\n' + text[at:]
    (Path(kept.root) / "players/mo/bag.toml").write_text(text)
    gaps = [
        each.sentence for each in checks.findings(kept, "mo") if each.slot == "7i" and "gap to 9i" in each.sentence
    ]
    assert len(gaps) == 1
    assert "; gaps in the reference air by the flight model " in gaps[0]


def test_the_bags_findings_name_the_wrong_hand_and_the_unmarked_head(left_handed: Desk) -> None:
    unmarked = [each for each in checks.findings(left_handed, "mo") if each.kind == "hand of the head"]
    assert [each.slot for each in unmarked] == ["driver"]
    mark(left_handed, "oak-8", "right")
    found = [str(each) for each in checks.findings(left_handed, "mo") if "-handed" in each.sentence]
    assert found == ["driver: the head oak-8 is for a right-handed player, and this player is left-handed"]
