"""The criteria as they stand: seen at 80×24 while shots are typed, every mark kept."""

from rich.cells import cell_len

from fitlog.evidence.criteria.criteria import Judgement, judge
from fitlog.evidence.criteria.criterion import Criterion
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk
from fitlog.tui.session.criteria_row import criteria_rows, reason_rows
from fitlog.tui.session.page import SessionPage
from tests.tui.driving import Hands, drive


def judged_as(wanted: list[Criterion]) -> list[Judgement]:
    return [judge(each, [], None, DisplayUnits(UnitChoices())) for each in wanted]


def test_three_long_criteria_are_read_in_full_in_three_rows() -> None:
    wanted = [
        Criterion("descent_deg", "at_least", 42.5),
        Criterion("direction_deg", "within", 2),
        Criterion("carry_yd", "gain_at_least", -4),
    ]
    rows = [each.plain for each in criteria_rows("criteria", judged_as(wanted), 78, 3)]
    assert rows == [
        "criteria  ? descent angle at least 42.5°",
        "          ? start line of the middle shot within 2° of the target line",
        "          ? carry at most 4 yd below the reference",
    ]


def test_every_mark_stays_where_the_words_do_not_fit() -> None:
    judged = judged_as([Criterion("carry_yd", "at_least", 225), Criterion("spin_rpm", "within", 250.5)] * 4)
    rows = [each.plain for each in criteria_rows("criteria", judged, 78, 3)]
    assert len(rows) <= 3
    assert all(cell_len(each) <= 78 for each in rows)
    assert "".join(rows).count("? ") == 8
    assert "250…" not in "".join(rows)


def test_why_it_was_decided_is_read_in_full() -> None:
    reason = "steeper on all three days and no shorter on any; lands at 42 where her own lands at 39.5"
    rows = [each.plain for each in reason_rows("keep    ", reason, 78)]
    assert all(cell_len(each) <= 78 for each in rows)
    assert " ".join(" ".join(rows).split()) == f"keep {reason}"


def test_criteria_are_seen_and_follow_the_shots(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.see("criteria  ? carry at least 225 yd")
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        page.entry.log([f"{carry / 10} 2" for carry in range(2300, 2330)])
        await hands.see("criteria  ✓ carry at least 225 yd")
        await hands.press("tab")
        await hands.see("reference", "criteria  ✓ carry at least 225 yd")

    drive(waiting, story, player="mo")


def test_criteria_means_and_the_last_shots_share_a_low_screen(waiting: Desk) -> None:
    """Of nine columns the judged one and carry and offline have their means, and six rows are left for shots."""

    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.see("criteria  ? carry at least 225 yd")
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        keys = [
            "ball_speed_mph", "launch_deg", "direction_deg", "spin_rpm", "spin_axis_deg", "carry_yd", "offline_yd",
            "peak_height_yd", "descent_deg",
        ]  # fmt: skip
        page.state._columns = (page.state.session, tuple(keys))
        page.view.show(page.services.units)
        said = await hands.see("carry yd ", "offline yd ", "verdict ", "criteria  ? carry at least 225 yd")
        below = said.partition("────")[2].splitlines()
        assert sum(each.strip("▌ ").partition(" ")[0].isdigit() for each in below) == 6
        assert all(head in said for head in ("ball", "launch", "start", "spin", "axis", "offline", "peak", "descent"))

    drive(waiting, story, player="mo")
