"""Shared by the tests of this folder."""

from collections.abc import Callable

from fitlog.actions.bag import edit
from fitlog.report.document import (
    Banner,
    Blank,
    Blanks,
    Bullets,
    Cell,
    Document,
    Facts,
    Heading,
    Ladder,
    Page,
    Pair,
    Paragraph,
    Rung,
    Table,
)
from fitlog.report.sheets import bag, build, carries, day, season, verdict
from fitlog.saving.desk import Desk
from fitlog.views.carries.card import carry_card
from fitlog.views.sheets.bag_card import bag_card, build_sheet
from fitlog.views.sheets.day_sheet import day_sheet
from fitlog.views.sheets.season_sheet import season_sheet
from fitlog.views.sheets.verdict_sheet import verdict_sheets
from tests.report.conftest import Tried


def rested(tried: Tried) -> Desk:
    """The desk, with the bag's club resting on the test."""
    edit.bag_set(tried.desk, "mo", "3w", {"evidence": [tried.ref]}, "hit with it")
    return tried.desk


SHEETS: dict[str, Callable[[Tried], Document]] = {
    "verdict": lambda tried: verdict.document(verdict_sheets(tried.desk, "mo", tried.ref)),
    "bag": lambda tried: bag.document(bag_card(tried.desk, "mo")),
    "build": lambda tried: build.document(build_sheet(tried.desk, "mo", ["3w", tried.ref])),
    "day": lambda tried: day.document(day_sheet(tried.desk)),
    "carries": lambda tried: carries.document(carry_card(rested(tried), "mo")),
    "season": lambda tried: season.document(season_sheet(rested(tried), "mo", "HEAD~1")),
}


def sample(text: str) -> Document:
    """A document with the text wherever a block holds text."""
    table = Table((text, "n"), ((Cell(text, struck=True), Cell(text, computed=True)),), frozenset({1}), text, True)
    ladder = Ladder((Rung(text, 1.0, 0.2, text), Rung("b", 2.0, 0.0, text)), "yd", text)
    blocks = (
        Banner(text, text, text, "good"),
        Heading(text),
        Paragraph(text),
        Bullets((text,)),
        Facts(((text, text),)),
        Pair((table,), (ladder,)),
        Blanks((Blank(text, text, text, text),)),
    )
    return Document(text, (Page(text, text, blocks), Page(text, text, ())), text)
