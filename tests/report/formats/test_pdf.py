"""PDF: each page on one sheet of paper, its text in reading order, and nothing fetched."""

from importlib.util import find_spec
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest

from fitlog.actions.session import setup, shots
from fitlog.report.document import Document, Pair, Table, plain_row
from fitlog.report.formats.pdf import lay_out, pdf
from fitlog.report.formats.rendering import make_sheet
from fitlog.report.sheets import bag, verdict
from fitlog.saving.desk import Desk
from fitlog.views.sheets.bag_card import bag_card
from fitlog.views.sheets.verdict_sheet import verdict_sheets
from tests.report.conftest import Tried

pytestmark = pytest.mark.skipif(find_spec("weasyprint") is None, reason="fitlog[pdf] is not installed here")

MM = 96 / 25.4


def laid_out(document: Document) -> list[Any]:
    """The pages as they are printed."""
    from weasyprint import HTML
    from weasyprint.urls import URLFetcher

    return lay_out(document, HTML, URLFetcher(allowed_protocols=("data",)))


def sizes(document: Document) -> list[tuple[int, int]]:
    """The size of each page, mm."""
    return [(round(page.width / MM), round(page.height / MM)) for page in laid_out(document)]


def overlaps(document: Document) -> list[tuple[str, str]]:
    """Pieces of text that are printed over each other, of all pages."""
    found = []
    for page in laid_out(document):
        texts = [each for each in page._page_box.descendants() if getattr(each, "text", "").strip()]
        for one, other in combinations(texts, 2):
            wide = min(one.position_x + one.width, other.position_x + other.width)
            wide -= max(one.position_x, other.position_x)
            tall = min(one.position_y + one.height, other.position_y + other.height)
            tall -= max(one.position_y, other.position_y)
            if wide > 1 and tall > 0.3 * min(one.height, other.height):
                found.append((one.text, other.text))
    return found


def test_a_verdict_takes_its_two_pages_and_a_card_that_of_a_scorecard(tried: Tried) -> None:
    assert sizes(verdict.document(verdict_sheets(tried.desk, "mo", tried.ref))) == [(210, 297), (210, 297)]
    assert sizes(bag.document(bag_card(tried.desk, "mo"))) == [(105, 148), (210, 297)]


def test_no_text_is_printed_over_another(tried: Tried) -> None:
    setup.start_test(tried.desk, "mo", "3w", session=tried.session, values={"length_in": 42.5, "loft_deg": 15.0})
    document = verdict.document(verdict_sheets(tried.desk, "mo", tried.session))
    assert overlaps(document) == []
    assert overlaps(bag.document(bag_card(tried.desk, "mo"))) == []
    page = document.pages[0]
    crowded = Table(("carry, yd", "offline, yd"), tuple(plain_row("no_room_for_this" * 9, "here") for _ in range(2)))
    assert overlaps(document._replace(pages=(page._replace(blocks=(Pair((crowded,), (crowded,)),)),))) != []


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
