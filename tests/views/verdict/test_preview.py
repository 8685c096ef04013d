"""What the Verdict screen shows before a verdict."""

from fitlog.saving.desk import Desk
from fitlog.views.evidence.presentation import COMPUTED
from fitlog.views.verdict.preview import preview_verdict
from tests.views.verdict.hit import hit


def test_the_verdict_screen_gets_it_all(desk: Desk) -> None:
    assert preview_verdict(desk, "mo").presentation is None  # nothing waits
    seen = preview_verdict(desk, "mo", hit(desk, {"temperature_c": 9.0})).presentation
    assert seen is not None
    assert any(each.startswith("peak height, computed: ") for each in seen.section(COMPUTED))
