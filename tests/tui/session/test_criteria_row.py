"""The criteria as they stand: seen at 80×24 while shots are typed, every mark kept."""

from rich.cells import cell_len

from fitlog.evidence.criteria.criteria import judge
from fitlog.evidence.criteria.criterion import Criterion
from fitlog.records.models.settings import UnitChoices
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk
from fitlog.tui.session.criteria_row import criteria_row
from fitlog.tui.session.page import SessionPage
from tests.tui.driving import Hands, drive


def test_every_mark_stays_where_the_words_do_not_fit() -> None:
    wanted = [Criterion("carry_yd", "at_least", 225), Criterion("spin_rpm", "within", 250.5)] * 2
    judged = [judge(each, [], None, DisplayUnits(UnitChoices())) for each in wanted]
    row = criteria_row("criteria", judged, 78).plain
    assert cell_len(row) <= 78
    assert row.count("? ") == 4
    assert "250…" not in row


def test_criteria_are_seen_and_follow_the_shots(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.see("criteria  ? carry at least 225 yd")
        page = hands.app.screen
        assert isinstance(page, SessionPage)
        page.entry.log([f"{carry / 10} 2" for carry in range(2300, 2330)])
        await hands.see("criteria  ✓ carry at least 225 yd")
        await hands.press("tab")
        await hands.see("criteria of", "✓ carry at least 225 yd")

    drive(waiting, story, player="mo")
