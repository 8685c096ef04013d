"""Differences by meaning."""

from datetime import date

from fitlog.history.differences import bag_differences, file_differences, session_differences, summary


def test_a_second_club_in_a_slot_is_the_only_one_added() -> None:
    first = {"slot": "55", "head": {"model": "Sorrel 55"}}
    second = {"slot": "55", "id": "q7k", "carried": False, "head": {"model": "Sorrel 56"}}
    found = bag_differences({"club": [first]}, {"club": [{**first, "id": "b4t"}, second]})
    assert [str(each) for each in found] == ["55#q7k: added, Sorrel 56, not carried"]


def test_clubs_that_share_a_slot_are_told_apart() -> None:
    low, high = ({"slot": "55", "id": name, "head": {"model": "Sorrel"}} for name in ("q7k", "b4t"))
    before = {"club": [low, {**high, "carried": False}]}
    after = {"club": [{**low, "carried": False}, high]}
    assert summary(bag_differences(before, after)) == "55#q7k: left at hand; 55#b4t: now carried"


def test_clubs_that_are_given_ids_stay_the_clubs_they_were() -> None:
    first, second = ({"slot": "55", "head": {"model": name}} for name in ("Sorrel 55", "Sorrel 56"))
    named = [{**first, "id": "1st"}, {**second, "id": "2nd", "carried": False}]
    assert summary(bag_differences({"club": [first, second]}, {"club": named})) == "55#2nd: left at hand"
    assert summary(bag_differences({"club": named}, {"club": [first, second]})) == "55: now carried"


def test_only_the_date_of_a_club_changed() -> None:
    club = {"slot": "3w", "since": date(2026, 1, 1), "luck": float("nan")}
    later = {**club, "since": date(2026, 2, 1), "luck": float("nan")}
    assert summary(bag_differences({"club": [club]}, {"club": [later]})) == "3w: since 2026-01-01 → 2026-02-01"
    other = {**later, "length_in": 43.0}
    assert summary(bag_differences({"club": [club]}, {"club": [other]})) == "3w: length not known → 43 in"


def test_a_club_left_at_hand_was_carried_before() -> None:
    club = {"slot": "3h", "head": {"model": "Plover"}}
    assert [str(each) for each in bag_differences({"club": [club]}, {"club": [{**club, "carried": False}]})] == [
        "3h: left at hand"
    ]
    assert bag_differences({"club": [club]}, {"club": [{**club, "carried": True}]}) == []


def test_a_plan_and_a_search_are_worded_by_what_they_mean() -> None:
    plan = {"slot": "7i", "order": "blocks", "turn": 3, "tests": ["hrw", "yqx"], "sequence": "AAABBBBBBAAA"}
    new = {"place": "the range", "plan": [plan]}
    assert summary(session_differences({"place": "the range"}, new)) == (
        "plan: 7i: 6 shots with each club, 3 in a row, in random blocks"
    )
    assert summary(session_differences({"plan": [], "test": []}, {"place": "the range"})) == ""
    then, now = ({"shaft": {"model": name}} for name in ("Gorse 70", "Gorse 85"))
    begun = {"slot": "4h", "good": "it was last proven", "then": then, "now": now}
    begun["regain"] = {"metric": "carry_yd", "by": 7.0}
    assert [str(each) for each in file_differences("search", {}, begun)] == [
        "which change of the 4h did it, since it was last proven",
        "then → now: shaft Gorse 70 → Gorse 85",
        "to regain: carry +7 yd",
    ]
    ended = {**begun, "ended": date(2026, 7, 4), "result": "shaft", "reason": "out again"}
    assert [str(each) for each in file_differences("search", begun, ended)] == ["ended on 2026-07-04: shaft"]


def test_a_first_value_reads_as_set_and_one_that_a_club_lacked_as_a_change() -> None:
    bag = {"season": "2026", "club": [{"slot": "7i", "head": {"model": "Alder 7"}}]}
    after = {**bag, "ball": {"model": "Pearl"}, "makeup": [{"name": "Links", "clubs": ["7i"]}]}
    after["club"] = [{"slot": "7i", "head": {"model": "Alder 7"}, "weights": [{"place": "toe", "mass_g": 4.0}]}]
    assert [str(each) for each in bag_differences(bag, after)] == [
        "7i: weights none → toe 4 g",
        "bag: ball Pearl",
        "make-up Links: clubs 7i",
    ]
    assert summary(file_differences("player", {}, {"name": "Mo Ferrant"})) == "name Mo Ferrant"
    (pattern,) = file_differences("player", {}, {"grip_pattern": {"tape_wraps": 0}})
    assert pattern.text == "grip pattern tape wraps 0"


def test_a_shot_left_out_says_why_by_its_number_and_a_file_by_its_name() -> None:
    shots = [{"id": "aaaa", "carry_yd": 150.0}, {"id": "bbbb", "carry_yd": 20.0}]
    left_out = [shots[0], {**shots[1], "excluded": "topped it"}]
    source = {"file": "a2f7.csv", "name": "bay-4.csv", "importer": "bay-csv"}
    before, after = {"id": "b4t", "shots": shots}, {"id": "b4t", "shots": left_out, "sources": [source]}
    found = session_differences({"test": [before]}, {"test": [after]})
    assert [each.text for each in found] == ["shot 2: left out, topped it", "from the file bay-4.csv"]
    (back,) = session_differences({"test": [{**after}]}, {"test": [{**before, "sources": [source]}]})
    assert back.text == "shot 2: counted again"


def test_a_new_club_says_what_is_written_down_of_it() -> None:
    found = [bag_differences({}, {"club": [{"slot": "gw", **values}]})[0] for values in ({"lie_deg": 63.0}, {})]
    assert [each.text for each in found] == ["added, lie 63°", "added, nothing written down"]
