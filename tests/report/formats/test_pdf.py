"""PDF: each page on one sheet of paper, its text in reading order, and nothing fetched."""

from importlib.util import find_spec
from pathlib import Path

import pytest

from fitlog.actions.session import setup, shots
from fitlog.report.document import Document
from fitlog.report.formats.pdf import lay_out, pdf
from fitlog.report.formats.rendering import make_sheet
from fitlog.report.sheets import bag, verdict
from fitlog.saving.desk import Desk
from fitlog.views.sheets.bag_card import bag_card
from fitlog.views.sheets.verdict_sheet import verdict_sheets
from tests.report.conftest import Tried

pytestmark = pytest.mark.skipif(find_spec("weasyprint") is None, reason="fitlog[pdf] is not installed here")

MM = 96 / 25.4


def sizes(document: Document) -> list[tuple[int, int]]:
    """The size of each page, mm."""
    from weasyprint import HTML
    from weasyprint.urls import URLFetcher

    pages = lay_out(document, HTML, URLFetcher(allowed_protocols=("data",)))
    return [(round(page.width / MM), round(page.height / MM)) for page in pages]


def test_a_verdict_takes_its_two_pages_and_a_card_that_of_a_scorecard(tried: Tried) -> None:
    assert sizes(verdict.document(verdict_sheets(tried.desk, "mo", tried.ref))) == [(210, 297), (210, 297)]
    assert sizes(bag.document(bag_card(tried.desk, "mo"))) == [(105, 148), (210, 297)]


def test_a_verdict_without_a_reference_takes_its_two_pages(tried: Tried) -> None:
    started = setup.start_test(tried.desk, "mo", "7i", values={"loft_deg": 32.0})
    balls = [{"carry_yd": 150.0 + each, "offline_yd": 2.0 * each, "descent_deg": 44.0} for each in range(9)]
    shots.add_shots(tried.desk, "mo", started.ref, balls)
    assert len(sizes(verdict.document(verdict_sheets(tried.desk, "mo", started.ref)))) == 2


def test_what_was_typed_fetches_nothing(evil: Tried, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []
    monkeypatch.setattr("urllib.request.urlopen", lambda *given, **_: asked.append(str(given)))
    assert pdf(verdict.document(verdict_sheets(evil.desk, "mo", evil.ref))).startswith(b"%PDF-")
    assert asked == []


def test_a_logo_is_in_the_pdf(desk: Desk) -> None:
    path = Path(desk.root, "workspace.toml")
    path.write_text(path.read_text() + 'shop.logo = "logo.svg"\n')
    square = '<svg xmlns="http://www.w3.org/2000/svg" width="40" height="40"><rect width="40" height="40"/></svg>'
    Path(desk.root, "logo.svg").write_text(square)
    document: Document = bag.document(bag_card(desk, "mo"))
    plain, headed = pdf(document), pdf(make_sheet(desk, document))
    assert len(headed) > len(plain)
