"""The season sheet: changes with their reasons and tests, and the same club then and now."""

import re

import pytest

from fitlog.actions.bag import edit
from fitlog.records.errors import UsageError
from fitlog.report.document import Table
from fitlog.report.formats.rendering import render
from fitlog.report.sheets import season
from fitlog.saving.desk import Desk
from fitlog.views.sheets.season_sheet import season_sheet


def test_a_season_beside_the_one_before_with_reasons(year: Desk) -> None:
    sheet = season_sheet(year, "mo")
    assert [str(each) for each in sheet.differences] == ["3w: length 43 → 42.5 in"]
    assert [(each.entry.reason, len(each.differences)) for each in sheet.changes] == [("he chokes down anyway", 1)]
    lines = render(season.document(sheet), "text", 140)
    assert "from the end of season 2026 to now" in lines
    assert "he chokes down anyway" in lines
    rows = {line.split()[0]: line for line in lines.partition("When, and why")[0].splitlines() if line[:1].isalnum()}
    assert rows["3w"].endswith("length 43 → 42.5 in")
    assert rows["driver"].endswith("as it was")


def test_a_change_that_is_new_evidence_alone_says_which_test_in_words(year: Desk) -> None:
    name = year.workspace.sessions("mo")[-1]
    where = f"{name}#{year.workspace.session('mo', name).test[0].id}"
    edit.bag_set(year, "mo", "7i", {"evidence": [where]}, "hit in the cold")
    _, table, *_ = season.document(season_sheet(year, "mo")).pages[0].blocks
    assert isinstance(table, Table)
    rows = {row[0].text: [cell.text for cell in row[2:]] for row in table.rows}
    assert rows["7i"] == ["154", "rests on the test of 2027-04-18"]


def test_a_club_changed_since_or_hit_in_one_season_alone_is_not_there(year: Desk) -> None:
    edit.bag_set(year, "mo", "7i", {"loft_deg": 32.0}, "bent")
    assert season_sheet(year, "mo").same == ()
    assert "No club was hit as it is now" in render(season.document(season_sheet(year, "mo")), "text")


def test_two_dates_do_and_without_a_season_it_says_so(desk: Desk) -> None:
    with pytest.raises(UsageError, match="no season of mo was closed yet"):
        season_sheet(desk, "mo")
    edit.bag_set(desk, "mo", "3w", {"length_in": 42.5}, "shorter")
    sheet = season_sheet(desk, "mo", "HEAD~1")
    assert [each.entry.reason for each in sheet.changes] == ["shorter"]
    assert "Nothing changed: the bag is the same." in render(
        season.document(season_sheet(desk, "mo", "HEAD")), "text"
    )


def test_clubs_that_share_a_slot_are_told_apart_by_their_heads(year: Desk) -> None:
    edit.bag_set(year, "mo", "3w", {"head.model": "Alder 16 deep"}, "for the wind", as_second=True)
    text = render(season.document(season_sheet(year, "mo")), "text")
    (changed,) = [line for line in text.splitlines() if "added" in line and "Alder 16 deep" in line][:1]
    assert re.match(r"3w +Alder 16 deep ", changed)
    assert "#" not in text
