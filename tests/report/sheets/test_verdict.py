"""The verdict sheet says what was tried, what was measured, what it means, and what is not known."""

import re

import pytest

from fitlog.actions.history import undo
from fitlog.actions.session import setup, shots
from fitlog.actions.verdict import decide
from fitlog.records.errors import Refusal, UsageError
from fitlog.report.document import Banner, Bullets, Club, Document, Figure, Heading, Page, Table, flat
from fitlog.report.formats.rendering import render
from fitlog.report.sheets.verdict import document
from fitlog.views.sheets.verdict_sheet import verdict_sheets
from tests.report.conftest import Tried
from tests.report.page import checked


def made(tried: Tried, initials: bool = False) -> Document:
    return document(verdict_sheets(tried.desk, "mo", tried.ref), initials)


def after(page: Page, heading: str) -> list[object]:
    """The blocks under a heading."""
    blocks = list(flat(page.blocks))
    start = next(n for n, block in enumerate(blocks) if isinstance(block, Heading) and block.text == heading)
    rest = blocks[start + 1 :]
    end = next((n for n, block in enumerate(rest) if isinstance(block, Heading)), len(rest))
    return list(rest[:end])


def test_the_differences_stand_in_words_and_the_rest_of_the_setup_is_there_too(tried: Tried) -> None:
    front, full = made(tried).pages
    assert (front.title, full.title) == ("3-wood", "3-wood, candidate: the numbers in full")
    club = after(front, "What was tried")[0]
    assert isinstance(club, Club)
    assert [each for each in club.parts if each[1]] == [("shaft", ("Gorse 70 → Osier 75", "tip trim 0 → 1.25 in"))]
    table = after(full, "The setup in full")[0]
    assert isinstance(table, Table)
    assert [[cell.text for cell in row] for row in table.rows] == [
        ["shaft", "Gorse 70", "Osier 75"],
        ["tip trim", "0 in", "1.25 in"],
    ]
    assert "head Alder 16; head loft 16°; length 43 in" in render(made(tried), "text", 200)


def test_the_decision_stands_first_with_its_reason(tried: Tried) -> None:
    banner = made(tried).pages[0].blocks[0]
    assert isinstance(banner, Banner)
    assert (banner.word, banner.about, banner.tone) == ("✗ Reject", "Alder 16, 16° · shaft Osier 75", "bad")
    assert re.match(
        r"Comes down at 41\.3°, needed at least 60°: too flat to stop on a green; carries \d+ yd farther\.",
        banner.text,
    )
    assert banner.small.startswith("Reason: longer, but it lands too flat to hold a green (")


def test_the_line_can_be_written_by_hand(tried: Tried) -> None:
    sheets = verdict_sheets(tried.desk, "mo", tried.ref)
    banner = document(sheets, line="It  runs\nthrough the green.").pages[0].blocks[0]
    assert isinstance(banner, Banner)
    assert banner.text == "It runs through the green."
    with pytest.raises(UsageError, match="a line of your own is for one candidate"):
        document([*sheets, *sheets], line="both")
    with pytest.raises(UsageError, match="letters"):
        document(sheets, line="x" * 301)


def test_the_sentence_without_a_missed_criterion_tells_the_differences(tried: Tried) -> None:
    undo.undo(tried.desk, "mo")
    setup.set_criteria(tried.desk, "mo", tried.ref, [{"metric": "carry_yd", "at_least": 200}], "he asked for less")
    banner = made(tried).pages[0].blocks[0]
    assert isinstance(banner, Banner)
    carry = tried_compared(tried)
    assert (banner.word, banner.small) == ("? Open", "no verdict yet")
    assert banner.text.startswith(f"Carries {carry.estimate:.0f} yd farther")


def test_a_difference_that_is_not_seen_says_how_large_it_can_be(tried: Tried) -> None:
    table = after(made(tried).pages[0], "Beside the reference")[0]
    assert isinstance(table, Table)
    rows = {row[0].text: row[-1].text for row in table.rows}
    assert re.fullmatch(r"no difference seen, at most [\d.]+°", rows["descent angle, °"])
    assert " p" not in "".join(table.heads)


def test_another_loft_says_what_it_alone_explains(tried: Tried) -> None:
    started = setup.start_test(tried.desk, "mo", "3w", session=tried.session, values={"loft_deg": 13.0})
    setup.set_session(tried.desk, "mo", tried.session, {"notes": "x"})
    text = render(document(verdict_sheets(tried.desk, "mo", started.ref)), "text", 200)
    assert re.search(
        r"the loft alone \(13° in place of 16°\) explains \d+ yd (farther|shorter), .* by the flight", text
    )


def test_effects_are_in_the_golfers_units_with_p_in_the_last_column(tried: Tried) -> None:
    table = after(made(tried).pages[1], "Quantity by quantity")[0]
    assert isinstance(table, Table)
    assert table.heads[-1] == "p"
    rows = {row[0].text: row for row in table.rows}
    found = tried_compared(tried)
    carry = rows["carry, yd"]
    assert re.fullmatch(r"\d+ yd farther", carry[3].text)
    assert carry[3].text == f"{found.estimate:.0f} yd farther"
    assert carry[4].text == f"{found.low:.0f} to {found.high:.0f} yd farther"
    assert re.fullmatch(r"\d+ yd farther", carry[5].text)  # ranks are little moved by the topped one
    assert table.rows[0] == carry


def tried_compared(tried: Tried):  # type: ignore[no-untyped-def]
    found = verdict_sheets(tried.desk, "mo", tried.ref)[0].assessment
    assert found is not None
    return found.without.compared["carry_yd"].difference


def test_a_shot_left_out_stays_on_the_sheet_struck_and_with_its_reason(tried: Tried) -> None:
    table, note = after(made(tried).pages[1], "Shots: candidate")
    assert isinstance(table, Table)
    assert [row[0].text for row in table.rows] == ["1", "2", "3", "4×", "5", "6", "7", "8", "9", "10"]
    assert [row[1].struck for row in table.rows] == [n == 3 for n in range(10)]
    assert note.text == "4: left out: topped it"  # type: ignore[attr-defined]


def test_criteria_carry_their_outcome_as_a_sign_and_a_word(tried: Tried) -> None:
    for page in made(tried).pages:
        table = after(page, "Criteria")[0]
        assert isinstance(table, Table)
        outcomes = {row[0].text: row[1].text.partition(":")[0] for row in table.rows}
        assert outcomes["descent angle at least 60°"] == "✗ missed"
        assert outcomes["carry at least 232 yd"] == "? cannot tell"  # met only without the topped one
    front = after(made(tried).pages[0], "Criteria")[0]
    assert isinstance(front, Table)
    lines = [row[1].text for row in front.rows if row[0].text.startswith("descent")]
    assert re.fullmatch(r"✗ missed: middle shot [\d.]+°, 95 % interval [\d.]+ to [\d.]+ \(9 shots\)", lines[0])


def test_the_picture_overlays_both_clubs_and_names_what_it_leaves_out(tried: Tried) -> None:
    figure = after(made(tried).pages[0], "Where they landed")[0]
    assert isinstance(figure, Figure)
    assert {stroke.series for stroke in figure.scene.strokes} == {-1, 0, 1}
    assert [each.partition(":")[0] for each in figure.legend] == ["reference", "candidate"]
    assert "one of them too far off to be drawn" in figure.caption


def test_the_carry_in_the_reference_air_is_marked_as_computed(tried: Tried) -> None:
    table = after(made(tried).pages[1], "Quantity by quantity")[0]
    assert isinstance(table, Table)
    row = table.rows[1]
    assert row[0].text == "carry in ref. air, yd"
    assert all(cell.computed for cell in row[:4])
    measured, brought = (float(each[2].text.split()[0]) for each in table.rows[:2])
    assert brought > measured  # it was cold
    assert "humidity was not noted and taken as 50 %" in render(made(tried), "text", 400)


def test_without_air_no_carry_is_computed_and_the_sheet_says_so(tried: Tried) -> None:
    setup.set_session(tried.desk, "mo", tried.session, {"air.temperature_c": None})
    text = " ".join(render(made(tried), "text", 400).split())
    assert "≈" not in text
    assert "the air of the day was not noted; carries are as measured" in text


def test_what_changed_since_the_verdict_is_told(tried: Tried) -> None:
    shots.leave_out(tried.desk, "mo", tried.ref, tried.shots[tried.ref][3], "")
    text = render(made(tried), "text", 400)
    assert re.search(r"since the verdict shots went from 9 to 10", text)


def test_a_criterion_changed_after_the_shots_is_visible_as_such(tried: Tried) -> None:
    undo.undo(tried.desk, "mo")  # the verdict: a decided test keeps its criteria
    setup.set_criteria(tried.desk, "mo", tried.ref, [{"metric": "carry_yd", "at_least": 200}], "he asked for less")
    bullets = after(made(tried).pages[1], "Criteria")[1]
    assert isinstance(bullets, Bullets)
    assert "changed after shots were hit" in bullets.items[0]
    assert "(he asked for less)" in bullets.items[0]


def test_a_verdict_against_the_evidence_is_noted(tried: Tried) -> None:
    decide.give_verdict(tried.desk, "mo", tried.ref, "keep", "he likes it")
    assert "Note: keep, although descent angle at least 60° is missed" in render(made(tried), "text", 200)


def test_no_address_of_a_test_stands_on_paper(tried: Tried) -> None:
    for form in ("text", "md", "html"):
        text = render(made(tried), form)
        assert tried.session not in text


def test_initials_hide_the_name(tried: Tried) -> None:
    for form in ("text", "md", "html"):
        assert "Ferrant" not in render(made(tried, initials=True), form)
    assert "M. F. · " in render(made(tried, initials=True), "text", 200)


def test_metres_where_the_workspace_shows_metres(tried: Tried) -> None:
    with open(f"{tried.desk.root}/workspace.toml", "a", encoding="utf-8") as file:
        file.write('\n[units]\ndistance = "m"\ntemperature = "f"\n')
    text = render(made(tried), "text", 200)
    assert f"{tried_compared(tried).estimate * 0.9144:.0f} m farther" in text
    assert "carry at least 212.1 m" in text
    assert "flights computed in 48.2 °F, 1002 hPa" in text
    odd = [line for line in text.splitlines() if "looks odd" in line]  # readings as the file has them
    assert not re.search(r"\byd\b", "".join(line for line in text.splitlines() if line not in odd))


def test_a_session_gives_one_front_page_a_slot_and_the_reference_none(tried: Tried) -> None:
    setup.start_test(tried.desk, "mo", "3w", session=tried.session, values={"length_in": 42.5})
    pages = document(verdict_sheets(tried.desk, "mo", tried.session)).pages
    assert [page.title for page in pages] == [
        "3-wood", "3-wood, candidate A: the numbers in full", "3-wood, candidate B: the numbers in full",
    ]  # fmt: skip
    banners = [block.about for block in pages[0].blocks if isinstance(block, Banner)]
    assert banners == [
        "A · Alder 16, 16° · shaft Osier 75",
        "B · Alder 16, 16° · shaft Gorse 70 · length 43 → 42.5 in",
    ]
    reference = next(each for each in tried.shots if each != tried.ref)
    with pytest.raises(Refusal, match="is the reference"):
        verdict_sheets(tried.desk, "mo", reference)


def test_a_test_without_shots_has_a_sheet_that_says_so(tried: Tried) -> None:
    started = setup.start_test(tried.desk, "mo", "7i", values={"loft_deg": 32.0}, also_reference=True)
    text = render(document(verdict_sheets(tried.desk, "mo", started.ref)), "text")
    assert "no verdict yet" in text
    assert "No ball was hit yet." in text
    assert "No shot was hit" in text


def test_criteria_set_before_any_shot_stand_on_the_sheet(tried: Tried) -> None:
    wanted = [{"metric": "carry_yd", "at_least": 150.0}, {"metric": "carry_yd", "same_within": 3.0}]
    started = setup.start_test(tried.desk, "mo", "7i", values={"loft_deg": 32.0}, criteria=wanted)
    page = document(verdict_sheets(tried.desk, "mo", started.ref)).pages[1]
    table, *_ = after(page, "Criteria")
    assert isinstance(table, Table)
    assert [row[0].text for row in table.rows] == ["carry at least 150 yd", "carry within 3 yd of the reference"]
    assert {row[1].text for row in table.rows} == {"? cannot tell"}
    assert after(page, "Limits of this evidence") == [
        Bullets(("reference: none was hit: there is nothing to compare with", "no shot yet"))
    ]


def test_one_shot_without_a_reference_is_a_sheet_too(tried: Tried) -> None:
    started = setup.start_test(tried.desk, "mo", "7i", values={"loft_deg": 32.0})
    shots.add_shots(tried.desk, "mo", started.ref, [{"carry_yd": 150.0, "offline_yd": -3.0, "peak_height_yd": 28.0}])
    front, page = document(verdict_sheets(tried.desk, "mo", started.ref)).pages
    text = render(Document("", (front,)), "text")
    assert "candidate: one shot, too few for an ellipse" in text
    tables = [block for block in after(page, "What was measured") if isinstance(block, Table)]
    assert [row[1].text for table in tables for row in table.rows] == ["150.0", "3.0 L", "28.0"]
    figure = after(front, "Where they landed")[0]
    assert isinstance(figure, Figure)
    assert min(figure.scene.size) >= 12  # yards: a single shot is no close-up


def test_more_measures_than_paper_holds_stand_on_the_screen_and_the_sheet_says_so(full: Tried) -> None:
    page = made(full).pages[1]
    table = after(page, "Shots: candidate")[0]
    assert isinstance(table, Table)
    assert len(table.heads) == 19
    messages = [head.partition(",")[0] for place, head in enumerate(table.heads) if place not in table.screen]
    assert messages[1:] == [
        "ball",
        "launch",
        "start",
        "spin",
        "axis",
        "carry",
        "offline",
        "peak",
        "descent",
        "ref. air",
    ]
    assert "Left out on paper: head, mph, total, yd, attack, °, path, °" in checked(render(made(full), "html")).text


def test_no_number_is_broken_over_two_lines_of_text(full: Tried) -> None:
    text = render(made(full), "text", 80)
    assert max(map(len, text.splitlines())) <= 80
    first = next(
        test for test in full.desk.workspace.session("mo", full.session).test if full.ref.endswith(test.id)
    ).shots[0]
    assert first.total_yd is not None
    assert first.carry_yd is not None
    for value in (first.total_yd, first.carry_yd):
        assert re.search(rf" {value:.1f}( |$)", text, re.MULTILINE)


def test_more_clubs_than_one_picture_holds_are_told(tried: Tried) -> None:
    for length in (42.0, 42.5, 43.5):
        setup.start_test(tried.desk, "mo", "3w", session=tried.session, values={"length_in": length})
    figure = after(document(verdict_sheets(tried.desk, "mo", tried.session)).pages[0], "Where they landed")[0]
    assert isinstance(figure, Figure)
    assert len(figure.legend) == 4
    assert figure.caption.endswith("one more is not drawn")
