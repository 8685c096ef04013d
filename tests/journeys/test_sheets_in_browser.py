"""The sheets in a real headless browser: one printed page, nothing fetched, all text to be seen, light and dark."""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from fitlog.actions.session import setup, shots
from fitlog.report.formats.rendering import render
from fitlog.report.sheets import verdict
from fitlog.views.sheets.verdict_sheet import verdict_sheets
from tests.chromium import CHROMIUM, OpenPage
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
    cut: [...document.querySelectorAll("h1,h2,p,li,td,th,dd,b,small,figcaption,svg text")].filter(one => {
      const box = one.getBoundingClientRect(), svg = one.ownerSVGElement;
      const frame = (svg || document.body).getBoundingClientRect();
      const shown = getComputedStyle(one).display != "none" && box.width > 0;
      const scrolls = one.closest(".scroll:not(:has(.stacks))");
      return shown && !scrolls && (box.left < frame.left - 1 || box.right > frame.right + 1);
    }).map(one => one.textContent),
  });
})()"""


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
        seen: dict[str, Any] = json.loads(self.page.ask(LOOK))
        return seen


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
    over = browser.look('<!DOCTYPE html><body><p style="width: 500px">runs over</p>', PHONE)
    assert over["wide"] > PHONE  # the look itself notices
    assert over["cut"] == ["runs over"]
    for (name, width), seen in zip(wanted, found, strict=True):
        assert seen["wide"] <= width, name
        assert seen["cut"] == [], (name, width)
        assert [page.title for page in made[name].pages if page.title not in seen["text"]] == []
    for seen in (seen for (name, _), seen in zip(wanted, found, strict=True) if name == "verdict"):
        text = " ".join(seen["text"].split())
        for said in (
            "Descent angle at least 60° is missed: middle shot 41.3°.",
            "✗ Reject",
            "longer, but it lands too flat to hold a green",
            "? cannot tell",
            "left out: topped it",
        ):
            assert said in text
        assert seen["drawn"][0] > 150


def test_light_and_dark_follow_the_reader(tried: Tried, browser: Browser) -> None:
    page = render(SHEETS["verdict"](tried), "html")
    light, dark = browser.look(page, DESKTOP), browser.look(page, DESKTOP, dark=True)
    assert _brightness(light["paper"]) > 200 > 100 > _brightness(light["ink"])
    assert _brightness(dark["paper"]) < 100 < 200 < _brightness(dark["ink"])


def _brightness(colour: str) -> float:
    return sum(map(float, re.findall(r"[\d.]+", colour)[:3])) / 3
