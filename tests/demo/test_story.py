"""The demo's story: what the README promises is in its history, bags and sessions, and its figures agree."""

from pathlib import Path
from typing import Any

import pytest

from fitlog import demo
from fitlog.bench.club import AddedWeight, ClubParts, assemble
from fitlog.bench.components.masses import sums
from fitlog.bench.measures.readings import sentence
from fitlog.evidence.comparison.bisection import REGAINED
from fitlog.records.naming.slots import head_kind
from fitlog.saving.desk import Desk
from fitlog.views.bag.checks import carries
from fitlog.views.bench.setup import lay_out
from fitlog.views.bench.sheet import work_out
from fitlog.views.history.which_change import look_at_search, running_searches
from fitlog.views.session.blind import hidden_in
from fitlog.views.session.plans import planned_tests
from fitlog.views.sheets.letterhead import letterhead
from fitlog.views.verdict.evidence import assessment, numbers
from fitlog.workspace.package_data import package_folder
from tests.demo.sessions import sessions


def test_the_history_tells_what_the_readme_promises(demo_desk: Desk) -> None:
    entries = demo_desk.history.entries()
    assert 60 <= len(entries) <= 100
    actions = {entry.action for entry in entries}
    assert actions >= {
        *(
            "init",
            "edit",
            "player-add",
            "bag-set",
            "test",
            "shots",
            "import",
            "leave-out",
            "keep",
            "reject",
            "retest",
        ),
        *(
            "restore",
            "undo",
            "proven",
            "season-close",
            "ball",
            "make-up",
            "take-out",
            "carry",
            "leave",
            "session",
            "venue",
            "search",
            "plan",
        ),
    }
    times = [entry.when for entry in entries]
    assert times == sorted(times, reverse=True)
    assert all(entry.reason for entry in entries if entry.action in ("edit", "bag-set", "keep", "reject", "restore"))
    restored = next(entry for entry in entries if entry.action == "restore")
    assert restored.subject.startswith(
        "Back to the last proven setup: driver (driver: head Medlar 10.5 → Quince 10.5"
    )


def test_a_retest_became_a_keep_and_the_driver_is_the_proven_one_again(demo_desk: Desk) -> None:
    clubs = {club.slot: club for club in demo_desk.workspace.bag("tove-skerrow").clubs}
    (kept,) = clubs["7w"].evidence
    _, _, test = demo_desk.workspace.pick_test("tove-skerrow", kept)
    _, _, before = demo_desk.workspace.pick_test("tove-skerrow", test.made_from or "")
    assert before.verdict is not None
    assert before.verdict.decision == "retest"
    assert before.setup == test.setup
    assert clubs["7w"].standing == clubs["driver"].standing == "proven"
    assert clubs["driver"].setup.head.model == "Quince 10.5"


def test_one_search_named_the_change_and_one_waits_for_its_first_setup(demo_desk: Desk) -> None:
    (ended,) = demo_desk.workspace.searches("arvid-pellow")
    found = look_at_search(demo_desk, "arvid-pellow", ended)
    assert (found.result, found.record.result) == ("shaft", "shaft")
    assert [each.answer for each in found.steps] == [REGAINED, REGAINED]
    (running,) = running_searches(demo_desk, "jossie-wrenfield")
    assert (running.record.slot, running.steps) == ("3h", ())
    assert running.conclusion == "hit next: the club with grip put back"


def test_a_blind_retest_is_half_hit_in_the_order_of_its_plan_and_tells_nothing_yet(demo_desk: Desk) -> None:
    name = demo_desk.workspace.sessions("ludo-penrow")[-1]
    record = demo_desk.workspace.session("ludo-penrow", name)
    (planned,) = planned_tests(record)
    assert (planned.counts, planned.shots, planned.to_go) == ({"A": 6, "B": 6}, 12, 12)
    hit = sorted((shot.at, planned.plan.code_of(test.id)) for test in record.test for shot in test.shots if shot.at)
    assert "".join(code for _, code in hit) == planned.plan.sequence[:12]
    hidden = hidden_in(record)
    assert {hidden.name(test.id) for test in record.test} == {"club A", "club B"}
    session, _, first = demo_desk.workspace.pick_test("ludo-penrow", record.test[1].retest_of or "")
    assert first.verdict is not None
    assert (first.verdict.decision, session) == ("retest", demo_desk.workspace.sessions("ludo-penrow")[-2])


def test_its_sheets_carry_a_shop_of_its_own(demo_desk: Desk) -> None:
    head = letterhead(demo_desk)
    assert (head.shop, head.signature, head.notes) == (demo.NAME, demo.AUTHOR, ())
    assert head.contact
    assert head.logo.startswith("data:image/svg+xml;base64,")


def test_one_trial_goes_over_three_days_at_three_heights(demo_desk: Desk) -> None:
    (kept,) = next(club for club in demo_desk.workspace.bag("tove-skerrow").clubs if club.slot == "7w").evidence
    days, where = [], kept
    while where != "bag":
        _, session, test = demo_desk.workspace.pick_test("tove-skerrow", where)
        assert session.reference_for(test)
        days.append((session, test))
        where = test.made_from or ""
    assert [test.verdict.decision for _, test in days if test.verdict] == ["keep", "retest", "retest"]
    assert len({session.date for session, _ in days}) == 3
    assert len({session.place for session, _ in days}) == 3
    pressures = [session.air.pressure_hpa or 0.0 for session, _ in days]
    assert max(pressures) - min(pressures) > 90  # some 800 m between the lowest course and the highest
    assert [bool(session.air.wind_mph) for session, _ in days] == [False, True, False]


def test_whole_bags_have_their_carries(demo_desk: Desk) -> None:
    for player, fresh in (("tove-skerrow", 11), ("ludo-penrow", 6), ("arvid-pellow", 1)):
        clubs = [club for club in demo_desk.workspace.bag(player).carried if club.slot != "putter"]
        found = carries(demo_desk, player)
        assert found.keys() >= {club.address for club in clubs}
        assert len([club for club in clubs if not found[club.address].stale]) == fresh, player
    tove = carries(demo_desk, "tove-skerrow")
    yards = [
        tove[club.address].mean_yd for club in demo_desk.workspace.bag("tove-skerrow").carried if club.address in tove
    ]
    assert yards == sorted(yards, reverse=True)


def test_wedges_by_swing_and_venues_are_written_down(demo_desk: Desk) -> None:
    session = demo_desk.workspace.session("tove-skerrow", "2026-06-24-cwd")
    cells = [(test.slot, test.swing_name, len(test.shots)) for test in session.test]
    swings = demo_desk.workspace.player("tove-skerrow").swings
    assert cells == [(slot, swing, 5) for slot in ("49", "54", "58") for swing in swings]
    assert demo_desk.workspace.venues() == ["high-pennet", "kettle-pass", "long-marrow"]
    (makeup,) = demo_desk.workspace.bag("tove-skerrow").makeup
    assert (makeup.name, makeup.venue) == ("Kettle Pass", "kettle-pass")


def test_players_of_both_hands_and_every_kind_of_club(demo_desk: Desk) -> None:
    hands = {player: demo_desk.workspace.player(player).hand for player in demo_desk.workspace.players()}
    assert sorted(hands.values()) == ["left", "left", "right", "right"]
    counts = {player: len(demo_desk.workspace.bag(player).carried) for player in hands}
    assert counts == {"arvid-pellow": 12, "jossie-wrenfield": 13, "ludo-penrow": 7, "tove-skerrow": 14}
    kinds = {club.of_kind for club in demo_desk.workspace.bag("arvid-pellow").clubs}
    assert kinds == {"wood", "iron", "wedge", "putter"}


def test_comments_written_by_hand_are_still_there() -> None:
    bag = Path(package_folder("demo_workspace"), "players/arvid-pellow/bag.toml").read_text()
    assert '# the toe stands off the ground when he sets it down\n[[club]]\nslot = "putter"' in bag
    assert '# he asks for a 52 between this and the 56: which iron would go?\n[[club]]\nslot = "48"' in bag


def test_the_numbers_beside_each_verdict_are_what_the_evidence_gives_today(demo_desk: Desk) -> None:
    count = 0
    for player, name, session in sessions(demo_desk):
        for test in session.test:
            if test.verdict and test.shots:
                found, method = numbers(assessment(demo_desk, player, f"{name}#{test.id}").assessment)
                said: dict[str, Any] = test.raw["verdict"]
                assert (said["numbers"], said["method"]) == (found, method)
                count += 1
    assert count == 14


def test_reasons_are_supported_by_the_shots(demo_desk: Desk) -> None:
    (rejected,) = (
        test
        for player, _, session in sessions(demo_desk)
        for test in session.test
        if player == "jossie-wrenfield" and test.verdict and test.verdict.decision == "reject"
    )
    starts = [shot.direction_deg for shot in rejected.counted_shots if shot.direction_deg is not None]
    assert len(starts) == 12
    assert min(starts) > 0
    assert sum(starts) / len(starts) == pytest.approx(3.1, abs=0.05)
    assert rejected.sources[0].name == "bay-4.csv"
    assert [each for each in rejected.criteria if each.metric == "direction_deg" and each.within == 2.0]


def _head_centre(desk: Desk, part: str | None) -> float | None:
    head: Any = desk.workspace.part("heads", part).component if part else None
    return head.balance_in if head else None


def test_head_masses_give_the_swing_weights_that_the_bench_read(demo_desk: Desk) -> None:
    count = 0
    for player in demo_desk.workspace.players():
        for club in demo_desk.workspace.bag(player).clubs:
            read, setup = club.readings, club.setup
            if read.mass_g is None or setup.length_in is None:
                continue
            built = sums(
                assemble(
                    ClubParts(
                        setup.length_in,
                        head_kind(club.slot, club.of_kind),
                        setup.head.mass_g,
                        _head_centre(demo_desk, setup.head.part),
                        shaft_mass_g=setup.shaft.mass_g,
                        shaft_raw_length_in=setup.shaft.raw_length_in,
                        shaft_tip_trim_in=setup.shaft.tip_trim_in,
                        grip_mass_g=setup.grip.mass_g,
                        grip_tape_wraps=setup.grip.tape_wraps,
                        sleeve_mass_g=setup.sleeve.mass_g,
                        weights=tuple(AddedWeight("head", weight.mass_g) for weight in setup.weights),
                    )
                ).pieces
            )
            assert read.mass_g == pytest.approx(built.mass_g, abs=2.5), club.address
            letter, points = (read.swing_weight or "")[0], float((read.swing_weight or "")[1:])
            assert built.points == pytest.approx("ABCDEFG".index(letter) * 10 + points, abs=1.0), club.address
            count += 1
    assert count >= 6


def test_every_reading_agrees_but_the_one_that_the_story_has_and_every_part_named_is_there(demo_desk: Desk) -> None:
    count, disagreeing = 0, []
    for player in demo_desk.workspace.players():
        for club in demo_desk.workspace.bag(player).clubs:
            sheet = work_out(lay_out(demo_desk, player, club.address))
            disagreeing += [(player, club.slot, sentence(row)) for row in sheet.differences if row.disagrees]
            assert not [note for note in sheet.notes if "is not there" in note]
            count += len(sheet.differences)
    ((player, slot, words),) = disagreeing
    assert (player, slot) == ("arvid-pellow", "7i")
    assert words.startswith("lie")
    assert count > 25
