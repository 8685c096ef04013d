"""Merging by meaning: symmetric, calm where nothing changed, and nothing vanishes."""

from datetime import date, time
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.history.merging.conflicts import place_text, side_text
from fitlog.history.merging.merge import Conflict, Merge, merge
from fitlog.records.models.bag import read_bag
from fitlog.records.schema.fields import Fault
from fitlog.records.schema.rows import address, canonical

Table = dict[str, Any]


def bag(*clubs: Table, **more: Any) -> Table:
    return {**more, "club": list(clubs)}


WOOD = {
    "slot": "3w",
    "head": {"model": "Alder 16"},
    "shaft": {"model": "Gorse 70", "tip_trim_in": 0.0},
    "length_in": 43.0,
}
IRON = {"slot": "7i", "loft_deg": 33.0, "standing": "proven", "since": date(2026, 3, 1)}


def changed(row: Table, **values: Any) -> Table:
    return {**row, **values}


def both_ways(kind: str, base: Table, ours: Table, theirs: Table) -> Merge:
    """Merge, and see that the other way round gives the same."""
    merged = merge(kind, base, ours, theirs)
    turned = merge(kind, base, theirs, ours)
    assert canonical(merged.table) == canonical(turned.table)
    assert [each.swap() for each in turned.conflicts] == list(merged.conflicts)
    return merged


def test_different_slots_and_different_keys_of_one_club_merge() -> None:
    merged = both_ways(
        "bag",
        bag(WOOD, IRON),
        bag(changed(WOOD, length_in=42.5), IRON),
        bag(changed(WOOD, lie_deg=57.0), changed(IRON, loft_deg=32.5)),
    )
    assert merged.conflicts == ()
    clubs = {club["slot"]: club for club in merged.table["club"]}
    assert clubs["3w"] == {**WOOD, "length_in": 42.5, "lie_deg": 57.0}
    assert clubs["7i"]["loft_deg"] == 32.5


def test_where_one_key_of_a_setup_differs_the_setup_is_taken_whole() -> None:
    ours = changed(WOOD, length_in=42.5, shaft={"model": "Osier 75", "tip_trim_in": 1.25})
    theirs = changed(WOOD, lie_deg=57.0, shaft={"model": "Sedge 80", "tip_trim_in": 0.0})
    merged = both_ways("bag", bag(WOOD), bag(ours), bag(theirs))
    (conflict,) = merged.conflicts
    assert (conflict.where, conflict.key) == (("club", "3w"), "setup")
    assert merged.table["club"] in ([ours], [theirs])
    assert place_text(conflict) == "3w"
    assert (
        side_text(conflict, conflict.ours) == "shaft Gorse 70 → Osier 75; tip trim 0 → 1.25 in; length 43 → 42.5 in"
    )
    assert side_text(conflict, conflict.theirs) == "shaft Gorse 70 → Sedge 80; lie not known → 57°"


def test_a_new_setup_that_nobody_proved_is_on_trial() -> None:
    proven = changed(WOOD, standing="proven")
    ours = changed(WOOD, standing="proven", length_in=42.5)
    theirs = changed(WOOD, standing="proven", lie_deg=57.0)
    merged = both_ways("bag", bag(changed(WOOD, standing="trial")), bag(ours), bag(theirs))
    assert merged.table["club"][0]["standing"] == "trial"
    assert merged.conflicts == ()
    calm = both_ways("bag", bag(changed(WOOD, standing="trial")), bag(proven), bag(changed(WOOD, standing="trial")))
    assert calm.table["club"][0]["standing"] == "proven"


def test_what_was_changed_stands_against_its_removal() -> None:
    merged = both_ways("bag", bag(WOOD, IRON), bag(IRON), bag(changed(WOOD, length_in=42.5), IRON))
    (conflict,) = merged.conflicts
    assert {club["slot"] for club in merged.table["club"]} == {"3w", "7i"}
    assert conflict.ours is None
    assert side_text(conflict, conflict.ours) == "taken out"
    assert side_text(conflict, conflict.theirs) == "length 43 → 42.5 in"


def test_a_club_taken_out_on_one_side_goes() -> None:
    merged = both_ways("bag", bag(WOOD, IRON), bag(IRON), bag(WOOD, changed(IRON, loft_deg=32.0)))
    assert merged.conflicts == ()
    assert [club["slot"] for club in merged.table["club"]] == ["7i"]


def test_a_club_that_the_other_side_named_in_a_makeup_stays() -> None:
    theirs = bag(WOOD, IRON, makeup=[{"name": "links", "clubs": ["3w"]}])
    merged = both_ways("bag", bag(WOOD, IRON), bag(IRON), theirs)
    faults: list[Fault] = []
    read_bag(merged.table, faults)
    assert faults == []
    assert [each.where for each in merged.conflicts] == [("club", "3w")]


def test_a_club_that_both_gave_an_id_is_one_club_still() -> None:
    ours = bag(
        changed(WOOD, id="kkk", lie_deg=57.0),
        {"slot": "3w", "id": "nnn"},
        makeup=[{"name": "a", "clubs": ["3w#kkk"]}],
    )
    theirs = bag(changed(WOOD, id="bbb", length_in=42.0), {"slot": "3w", "id": "ppp"})
    merged = both_ways("bag", bag(WOOD), ours, theirs)
    assert merged.conflicts == ()
    assert sorted(address(club) for club in merged.table["club"]) == ["3w#bbb", "3w#nnn", "3w#ppp"]
    assert merged.table["makeup"] == [{"name": "a", "clubs": ["3w#bbb"]}]
    first = next(club for club in merged.table["club"] if club["id"] == "bbb")
    assert (first["lie_deg"], first["length_in"]) == (57.0, 42.0)


def test_evidence_is_a_set() -> None:
    one, two, three = "2026-04-01-aaa#bbb", "2026-04-02-aaa#bbb", "2026-04-03-aaa#bbb"
    merged = both_ways(
        "bag",
        bag(changed(IRON, evidence=[one, two])),
        bag(changed(IRON, evidence=[one, two, three])),
        bag(changed(IRON, evidence=[two])),
    )
    assert merged.table["club"][0]["evidence"] == [two, three]


def session(*tests: Table) -> Table:
    return {"date": date(2026, 4, 18), "test": list(tests)}


def shot(known_by: str, minute: int, carry: float) -> Table:
    return {"id": known_by, "at": time(9, minute), "carry_yd": carry}


def test_shots_of_both_sides_stand_by_their_time() -> None:
    first = shot("aaaa", 0, 230.0)
    base = session({"id": "ttt", "slot": "3w", "shots": [first]})
    ours = session({"id": "ttt", "slot": "3w", "shots": [first, shot("bbbb", 2, 231.0), shot("cccc", 6, 228.0)]})
    theirs = session(
        {"id": "ttt", "slot": "3w", "shots": [first, shot("dddd", 4, 240.0)]}, {"id": "uuu", "slot": "7i"}
    )
    merged = both_ways("session", base, ours, theirs)
    assert merged.conflicts == ()
    assert [each["id"] for each in merged.table["test"][0]["shots"]] == ["aaaa", "bbbb", "dddd", "cccc"]
    assert [each["id"] for each in merged.table["test"]] == ["ttt", "uuu"]


def test_shots_without_an_id_are_kept_and_not_doubled() -> None:
    base = session({"id": "ttt", "slot": "3w", "shots": [{"carry_yd": 230.0}]})
    ours = session({"id": "ttt", "slot": "3w", "shots": [{"carry_yd": 230.0}, {"carry_yd": 231.0}]})
    theirs = session({"id": "ttt", "slot": "3w", "shots": [{"carry_yd": 230.0}, {"carry_yd": 229.0}]})
    shots = both_ways("session", base, ours, theirs).table["test"][0]["shots"]
    assert sorted(each["carry_yd"] for each in shots) == [229.0, 230.0, 231.0]


def test_a_verdict_is_never_half_of_each() -> None:
    base = session({"id": "ttt", "slot": "3w"})
    ours = {"decision": "keep", "reason": "longer", "by": "Ann"}
    theirs = {"decision": "reject", "reason": "too low"}
    merged = both_ways(
        "session",
        base,
        session({"id": "ttt", "slot": "3w", "verdict": ours}),
        session({"id": "ttt", "slot": "3w", "verdict": theirs}),
    )
    (conflict,) = merged.conflicts
    assert merged.table["test"][0]["verdict"] in (ours, theirs)
    assert side_text(conflict, theirs) == "reject: too low"
    assert place_text(conflict) == "test ttt"


def test_criteria_are_known_by_what_they_measure() -> None:
    base = {"name": "Mo", "criterion": [{"metric": "carry_yd", "at_least": 232.0}]}
    ours = {"name": "Mo", "criterion": [{"metric": "carry_yd", "at_least": 235.0}]}
    theirs = {
        "name": "Mo",
        "criterion": [{"metric": "carry_yd", "at_least": 232.0}, {"metric": "offline_yd", "within": 4.0}],
    }
    merged = both_ways("player", base, ours, theirs)
    assert merged.conflicts == ()
    assert merged.table["criterion"] == [ours["criterion"][0], theirs["criterion"][1]]


@pytest.mark.parametrize("stands", [True, False])
def test_who_stands_can_be_said(stands: bool) -> None:
    base, ours, theirs = ({"name": name} for name in ("Mo", "Moe", "Maurice"))
    merged = merge("player", base, ours, theirs, lambda conflict: (conflict.ours == "Moe") is stands)
    assert merged.table == (ours if stands else theirs)


# properties

VALUES: dict[str, st.SearchStrategy[Any]] = {
    "length_in": st.sampled_from([42.0, 43.0, 44.0]),
    "lie_deg": st.sampled_from([57.0, 58.0]),
    "notes": st.sampled_from(["soft", "firm"]),
    "standing": st.sampled_from(["trial", "proven"]),
    "since": st.dates(date(2026, 1, 1), date(2026, 1, 5)),
    "carried": st.booleans(),
    "head": st.fixed_dictionaries({}, optional={"model": st.sampled_from(["Elm", "Oak"]), "mass_g": st.just(200.0)}),
    "evidence": st.lists(st.sampled_from(["2026-04-01-aaa#bbb", "2026-04-02-aaa#bbb"]), unique=True),
    "own_key": st.lists(st.integers(0, 3), max_size=2),
}
IDS: dict[str, st.SearchStrategy[Any]] = {"id": st.sampled_from(["aaa", "bbb"])}
SLOT: dict[str, st.SearchStrategy[Any]] = {"slot": st.sampled_from(["3w", "7i", "52"])}
CLUB: st.SearchStrategy[Table] = st.fixed_dictionaries(SLOT, optional={**VALUES, **IDS})
SEASON: dict[str, st.SearchStrategy[Any]] = {"season": st.sampled_from(["2025", "2026"])}
BAG: st.SearchStrategy[Table] = st.fixed_dictionaries(
    {}, optional={"club": st.lists(CLUB, max_size=3, unique_by=address), **SEASON}
)
MAYBE: dict[str, st.SearchStrategy[Any]] = {
    "id": st.sampled_from(["aaaa", "bbbb", "cccc"]),
    "at": st.sampled_from([time(9, 0), time(9, 5)]),
}
CARRY: dict[str, st.SearchStrategy[Any]] = {"carry_yd": st.sampled_from([200.0, 210.0])}
SHOT: st.SearchStrategy[Table] = st.fixed_dictionaries(CARRY, optional=MAYBE)
NAMED: dict[str, st.SearchStrategy[Any]] = {"id": st.sampled_from(["ttt", "uuu"]), "slot": st.just("3w")}
OF_TEST: dict[str, st.SearchStrategy[Any]] = {
    "shots": st.lists(SHOT, max_size=3, unique_by=lambda row: str(row.get("id", canonical(row)))),
    "setup": st.fixed_dictionaries({}, optional={key: VALUES[key] for key in ("length_in", "lie_deg")}),
    "verdict": st.fixed_dictionaries({"decision": st.sampled_from(["keep", "reject"])}),
}
TEST: st.SearchStrategy[Table] = st.fixed_dictionaries(NAMED, optional=OF_TEST)
SESSION: st.SearchStrategy[Table] = st.fixed_dictionaries(
    {}, optional={"test": st.lists(TEST, max_size=2, unique_by=lambda row: str(row["id"]))}
)
FILE = st.one_of(st.tuples(st.just("bag"), BAG, BAG, BAG), st.tuples(st.just("session"), SESSION, SESSION, SESSION))


@given(FILE)
@settings(max_examples=400)
def test_the_outcome_does_not_depend_on_the_side(given_: tuple[str, Table, Table, Table]) -> None:
    both_ways(*given_)


@given(FILE)
@settings(max_examples=150)
def test_merging_with_the_same_or_with_the_past_changes_nothing(given_: tuple[str, Table, Table, Table]) -> None:
    kind, base, ours, _ = given_
    for left, right in ((ours, ours), (ours, base), (base, ours)):
        merged = merge(kind, base, left, right)
        assert merged.conflicts == ()
        assert canonical(merged.table) == canonical(ours)


@given(FILE)
@settings(max_examples=400)
def test_nothing_vanishes(given_: tuple[str, Table, Table, Table]) -> None:
    kind, base, ours, theirs = given_
    merged = merge(kind, base, ours, theirs)
    for side in (ours, theirs):
        for where, value in leaves(side):
            if (where, value) not in set(leaves(base)):
                assert kept(merged, where, value), (where, value)


@given(FILE)
@settings(max_examples=150)
def test_merging_the_merged_again_changes_nothing(given_: tuple[str, Table, Table, Table]) -> None:
    kind, base, ours, theirs = given_
    merged = merge(kind, base, ours, theirs).table
    for side in (ours, theirs):
        again = merge(kind, side, merged, side)
        assert again.conflicts == ()
        assert canonical(again.table) == canonical(merged)


BOOKKEEPING = {"since", "standing", "id"}  # these follow by rule: later date, trial, one id


def leaves(table: Table) -> list[tuple[str, str]]:
    """Every value of a file with the row it stands in."""
    out = []
    for name in ("club", "test"):
        for row in table.get(name, []):
            where = f"{name} {row['slot'] if name == 'club' else row['id']}"
            for key, value in row.items():
                if key in BOOKKEEPING or value in ({}, []):
                    continue
                if key == "shots":
                    for shot in value:  # a shot with an id merges key by key
                        parts = [{inner: each} for inner, each in shot.items()] if "id" in shot else [shot]
                        out += [(f"{where} {key} {shot.get('id', '')}", canonical(each)) for each in parts]
                    continue
                several = value if key == "evidence" else [value]
                if isinstance(value, dict):
                    several = [{inner: each} for inner, each in value.items()]
                out += [(f"{where} {key}", canonical(each)) for each in several]
    return out


def kept(merged: Merge, where: str, value: str) -> bool:
    """Whether a value stands in the merged table, or a conflict holds it."""
    if (where, value) in leaves(merged.table):
        return True
    return any(value in side(each) for each in merged.conflicts)


def side(conflict: Conflict) -> list[str]:
    out = []
    for held in (conflict.ours, conflict.theirs):
        out += every(held)
        if conflict.key:
            out += every({conflict.key.rpartition(".")[2]: held})
    return out


def every(value: Any) -> list[str]:
    """A value and all that is in it."""
    out = [canonical(value)]
    if isinstance(value, dict):
        for key, each in value.items():
            out += [canonical({key: each}), *every(each)]
    if isinstance(value, list):
        for each in value:
            out += every(each)
    return out


def test_two_vans_change_a_venue() -> None:
    base = {"name": "Long Marrow", "altitude_m": 420.0, "air": {"temperature_c": 14.0}}
    ours = {**base, "altitude_m": 455.0}
    theirs = {**base, "air": {"temperature_c": 12.0}}
    merged = merge("venue", base, ours, theirs)
    assert (merged.table["altitude_m"], merged.table["air"], merged.conflicts) == (455.0, {"temperature_c": 12.0}, ())
