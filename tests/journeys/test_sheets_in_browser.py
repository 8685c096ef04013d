"""The sheets in a real headless browser: one printed page, nothing fetched, all text to be seen, light and dark."""

import json
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from fitlog.actions.session import setup, shots
from fitlog.report.formats.rendering import make_sheet, render
from fitlog.report.sheets import bag, carries, day, season, verdict
from fitlog.saving.desk import Desk
from fitlog.views.carries.card import carry_card
from fitlog.views.sheets.bag_card import bag_card
from fitlog.views.sheets.day_sheet import day_sheet
from fitlog.views.sheets.season_sheet import season_sheet
from fitlog.views.sheets.verdict_sheet import verdict_sheets
from tests.chromium import CHROMIUM, OpenPage
from tests.conftest import copy_demo
from tests.report.conftest import COLUMNS, CRITERIA, Tried
from tests.report.samples import SHEETS

pytestmark = [
    pytest.mark.skipif(
        CHROMIUM is None, reason="no chromium here: apt-get install chromium to check the sheets in it"
    ),
    pytest.mark.xdist_group("browser"),
]
PHONE, TABLET, DESKTOP = 360, 800, 1100

LOOK = """(() => {
  const style = getComputedStyle(document.body);
  return JSON.stringify({
    text: document.body.innerText, wide: document.documentElement.scrollWidth,
    ink: style.color, paper: style.backgroundColor,
    drawn: [...document.querySelectorAll("svg.picture")].map(one => one.getBoundingClientRect().height),
  });
})()"""
SEEN = Path(__file__).with_name("seen.js").read_text(encoding="utf-8")
# paper inside its margins, CSS pixels: A4, letter, and the card for the pocket
PAPERS = {"A4": 711, "letter": 733, "pocket": 359}
FAULTS: dict[str, list[str]] = {"cut": [], "over": [], "faint": [], "disordered": []}


class Browser:
    """One browser for all tests here, with a profile of its own, that cannot leave this machine."""

    def __init__(self, folder: Path) -> None:
        self._folder, self._number = folder, 0
        self.page = OpenPage(folder / "profile", "about:blank", DESKTOP, 900)

    def open(self, page: str) -> None:
        """Open a page, and wait until all of it is there."""
        self._number += 1
        file = self._folder / f"sheet-{self._number}.html"
        file.write_text(page, encoding="utf-8")
        self.page.go(file.as_uri())
        self.page.wait_for(f"location.href == {file.as_uri()!r} && document.readyState == 'complete'")

    @property
    def fetched(self) -> list[str]:
        """What the page itself asked for beside its own file and what it carries inside."""
        own = f"/sheet-{self._number}.html"
        return [url for url in self.page.requested if not url.endswith(own) and not url.startswith("data:")]

    def print(self, page: str) -> int:
        """Print a page; returns how many sheets of paper it takes."""
        self.open(page)
        return len(re.findall(rb"/Type /Page\b(?!s)", self.page.print()))

    def look(self, page: str, width: int, dark: bool = False) -> dict[str, Any]:
        """What is seen of a page at a width: its visible text, how wide it gets, its colours."""
        self.page.set_size(width, 900)
        self.page.set_dark(dark)
        self.open(page)
        seen: dict[str, Any] = json.loads(self.page.ask(LOOK)) | self.faults()
        return seen

    def faults(self) -> dict[str, list[str]]:
        """What is cut, overlaps, stands out too little or is out of order, as the page is drawn now."""
        found: dict[str, list[str]] = json.loads(self.page.ask(SEEN))
        return found

    def look_at_print(self, page: str, width: int) -> dict[str, list[str]]:
        """The same of a page as it is printed on paper of this width between its margins."""
        self.page.set_size(width, 900)
        self.page.set_print(True)
        self.open(page)
        found = self.faults()
        self.page.set_print(False)
        return found


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    made = Browser(tmp_path_factory.mktemp("browser"))
    yield made
    made.page.close()


@pytest.mark.parametrize("paper", ["letter", "A4"])
@pytest.mark.parametrize("name", [*SHEETS])
def test_a_sheet_prints_on_its_pages_and_fetches_nothing(
    tried: Tried, browser: Browser, name: str, paper: str
) -> None:
    made = SHEETS[name](tried)
    page = render(made, "html").replace("</style>", f"@page {{ size: {paper} }}\n</style>")
    assert browser.print(page) == len(made.pages)
    assert browser.fetched == []


def test_a_sheet_with_all_measures_and_one_with_one_shot_print_on_one_page(full: Tried, browser: Browser) -> None:
    started = setup.start_test(full.desk, "mo", "7i", values={"loft_deg": 32.0}, criteria=CRITERIA)
    shots.add_shots(full.desk, "mo", started.ref, [dict.fromkeys(COLUMNS, 9.0)])
    for ref in (full.ref, started.ref):
        page = render(verdict.document(verdict_sheets(full.desk, "mo", ref)), "html")
        # the front page, and the numbers in full
        assert browser.print(page.replace("</style>", "@page { size: letter }\n</style>")) == 2


def test_what_fetches_and_what_runs_over_is_noticed(browser: Browser) -> None:
    assert browser.print('<!DOCTYPE html><body><img src="http://outside.test/x.png">' + "<p>line</p>" * 200) > 1
    assert browser.fetched == ["http://outside.test/x.png"]


def test_what_was_typed_neither_runs_nor_fetches(evil: Tried, browser: Browser) -> None:
    seen = browser.look(render(SHEETS["verdict"](evil), "html"), PHONE)
    assert "<script>alert(1)</script>" in seen["text"]
    assert browser.fetched == []


def test_phone_and_tablet_show_all_of_every_sheet_without_scrolling_sideways(tried: Tried, browser: Browser) -> None:
    made = {name: SHEETS[name](tried) for name in SHEETS}
    wanted = [(name, width) for name in made for width in (PHONE, TABLET)]
    found = [browser.look(render(made[name], "html"), width) for name, width in wanted]
    for (name, width), seen in zip(wanted, found, strict=True):
        assert seen["wide"] <= width, name
        assert {key: seen[key] for key in FAULTS} == FAULTS, (name, width)
        assert [page.title for page in made[name].pages if page.title not in seen["text"]] == []
    for seen in (seen for (name, _), seen in zip(wanted, found, strict=True) if name == "verdict"):
        text = " ".join(seen["text"].split())
        for message in (
            "Comes down at 41.3°, needed at least 60°: too flat to stop on a green; carries",
            "✗ Reject",
            "longer, but it lands too flat to hold a green",
            "? cannot tell",
            "left out: topped it",
        ):
            assert message in text
        assert seen["drawn"][0] > 150


@pytest.mark.parametrize("name", [*SHEETS])
def test_print_cuts_nothing_and_all_of_it_is_readable(tried: Tried, browser: Browser, name: str) -> None:
    page = render(SHEETS[name](tried), "html")
    for paper, width in PAPERS.items():
        of = _without(page, "pocket", paper != "pocket")
        assert browser.look_at_print(of, width) == FAULTS, paper


def _without(page: str, kind: str, without: bool) -> str:
    """The page without its articles of a kind, or with them alone."""
    return re.sub(
        r"(?s)<article[^>]*>.*?</article>",
        lambda found: "" if (f'class="{kind}"' in found[0].partition(">")[0]) == without else found[0],
        page,
    )


FAULTY = {
    "cut": f'<article><p style="white-space: nowrap">{"runs over " * 30}</p></article>',
    "over": '<article><p>below</p><p style="position: absolute; top: 8px">above</p></article>',
    "faint": '<article><p style="color: #999">too light</p></article>',
    "disordered": '<article style="display: grid"><p style="order: 2">first</p><p>last</p></article>',
}


@pytest.mark.parametrize("fault", FAULTY)
def test_each_fault_of_a_page_is_noticed(browser: Browser, fault: str) -> None:
    page = f"<!DOCTYPE html><body>{FAULTY[fault]}"
    assert browser.look(page, PHONE)[fault] != []
    assert browser.look_at_print(page, PAPERS["A4"])[fault] != []
    plain = "<!DOCTYPE html><body><article><p>one</p><p>two</p></article>"
    assert browser.look_at_print(plain, PAPERS["A4"]) == FAULTS


def test_the_fullest_sheets_of_the_demo_print_on_their_pages_with_nothing_cut(
    tmp_path: Path, tmp_path_factory: pytest.TempPathFactory, browser: Browser
) -> None:
    copy_demo(str(tmp_path / "demo"), tmp_path_factory)
    with Desk(str(tmp_path / "demo")) as desk:
        made = {
            "a card with wedges by swing": bag.document(bag_card(desk, "tove")),
            "three candidates": verdict.document(verdict_sheets(desk, "tove", "2026-04-21")),
            "a long day": day.document(day_sheet(desk, date(2026, 4, 21))),
            "a season": season.document(season_sheet(desk, "arvid")),
            "carries": carries.document(carry_card(desk, "tove", "high-pennet")),
        }
        pages = {name: render(make_sheet(desk, each), "html") for name, each in made.items()}
    for name, page in pages.items():
        on_letter = page.replace("</style>", "@page { size: letter }\n</style>")  # the shorter of the two papers
        assert browser.print(on_letter) == len(made[name].pages), name
        assert browser.look_at_print(_without(page, "pocket", True), PAPERS["letter"]) == FAULTS, name
        seen = browser.look(page, PHONE)
        assert seen["wide"] <= PHONE, name
        assert {key: seen[key] for key in FAULTS} == FAULTS, name


def test_light_and_dark_follow_the_reader(tried: Tried, browser: Browser) -> None:
    page = render(SHEETS["verdict"](tried), "html")
    for name in SHEETS:
        assert browser.look(render(SHEETS[name](tried), "html"), DESKTOP, dark=True)["faint"] == [], name
    light, dark = browser.look(page, DESKTOP), browser.look(page, DESKTOP, dark=True)
    assert _brightness(light["paper"]) > 200 > 100 > _brightness(light["ink"])
    assert _brightness(dark["paper"]) < 100 < 200 < _brightness(dark["ink"])


def _brightness(colour: str) -> float:
    return sum(map(float, re.findall(r"[\d.]+", colour)[:3])) / 3
