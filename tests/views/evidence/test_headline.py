"""The headline of a test, put together from the words of its evidence."""

from fitlog.actions.history import undo
from fitlog.actions.session import setup
from fitlog.views.evidence.headline import headline
from fitlog.views.evidence.presentation import COMPARED
from fitlog.views.verdict.evidence import assessment
from tests.report.conftest import Tried
from tests.views.evidence.texts import presented


def test_the_headline_is_put_together_from_the_same_words(tried: Tried) -> None:
    shown, found = presented(tried), assessment(tried.desk, "mo", tried.ref)
    missed = next(one for one in shown.standings if one.outcome == "missed")
    criterion = f"{missed.criterion[:1].upper()}{missed.criterion[1:]}"
    words = headline(found)
    assert words.startswith(f"{criterion} is missed: middle shot ")
    assert missed.measure.startswith(words.partition(": ")[2].rstrip("."))
    undo.undo(tried.desk, "mo")
    setup.set_criteria(tried.desk, "mo", tried.ref, [{"metric": "descent_deg", "at_least": 1}], "he asked for less")
    found = assessment(tried.desk, "mo", tried.ref)
    first = shown.section(COMPARED)[0]
    told = headline(found).rstrip(".").split("; ")
    assert first.startswith(f"{told[0][:1].lower()}{told[0][1:]} than the reference")
