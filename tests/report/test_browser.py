"""The sheets in a real headless browser: one printed page, nothing fetched, all text to be seen, light and dark."""

import json
import re
import shutil
import subprocess
from collections.abc import Sequence
from html import escape, unescape
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from fitlog.actions.session import setup, shots
from fitlog.report.formats.rendering import render
from fitlog.report.sheets import verdict
from fitlog.views.sheets.verdict_sheet import verdict_sheets
from tests.report.conftest import COLUMNS, CRITERIA, Tried
from tests.report.test_renderers import SHEETS

CHROMIUM = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
pytestmark = [
    pytest.mark.skipif(
        CHROMIUM is None, reason="no chromium here: apt-get install chromium to check the sheets in it"
    ),
    pytest.mark.xdist_group("browser"),
]
FLAGS = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run",
    "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage",
    "--proxy-server=http://127.0.0.1:9",  # the discard port: nothing gets out, the browser's own errands neither
)  # fmt: skip
PHONE, TABLET, DESKTOP = 360, 800, 1100


class Browser(NamedTuple):
    """A browser with a profile of its own that cannot leave this machine."""

    folder: Path

    def run(self, page: str, *flags: str) -> str:
        """Open a page; returns what the browser printed."""
        assert CHROMIUM is not None
        file = self.folder / "sheet.html"
        file.write_text(page, encoding="utf-8")
        own = (f"--user-data-dir={self.folder / 'profile'}", f"--log-net-log={self.folder / 'net.json'}")
        ran = subprocess.run(
            [CHROMIUM, *FLAGS, *own, *flags, file.as_uri()], capture_output=True, timeout=90, check=False
        )
        assert ran.returncode == 0, ran.stderr.decode()
        return ran.stdout.decode()

    @property
    def fetched(self) -> list[str]:
        """What the page itself asked for beside its own file; the browser's own errands have no origin."""
        log = json.loads((self.folder / "net.json").read_text(encoding="utf-8"))
        start = log["constants"]["logEventTypes"]["URL_REQUEST_START_JOB"]
        asked = [event["params"] for event in log["events"] if event["type"] == start and "params" in event]
        return [each["url"] for each in asked if "url" in each and each.get("initiator") != "not an origin"]

    @property
    def pages(self) -> int:
        """How many pages the last print has."""
        return len(re.findall(rb"/Type /Page\b(?!s)", self.pdf.read_bytes()))

    @property
    def pdf(self) -> Path:
        """Where a print goes."""
        return self.folder / "sheet.pdf"

    def print(self, page: str) -> None:
        """Print a page."""
        self.run(page, f"--print-to-pdf={self.pdf}", "--no-pdf-header-footer")


@pytest.fixture
def browser(tmp_path: Path) -> Browser:
    folder = tmp_path / "browser"
    folder.mkdir()
    return Browser(folder)


LOOK = """
<script>
const look = frame => {
  const seen = frame.contentDocument, style = frame.contentWindow.getComputedStyle(seen.body);
  return {
    text: seen.body.innerText, wide: seen.documentElement.scrollWidth, ink: style.color, paper: style.backgroundColor,
    drawn: [...seen.querySelectorAll("svg.picture")].map(one => one.getBoundingClientRect().height),
    cut: [...seen.querySelectorAll("h1,h2,p,li,td,th,dd,b,small,figcaption,svg text")].filter(one => {
      const box = one.getBoundingClientRect(), svg = one.ownerSVGElement;
      const frame = (svg || seen.body).getBoundingClientRect();
      const shown = getComputedStyle(one).display != "none" && box.width > 0;
      const scrolls = one.closest(".scroll:not(:has(.stacks))");
      return shown && !scrolls && (box.left < frame.left - 1 || box.right > frame.right + 1);
    }).map(one => one.textContent),
  };
};
onload = () => {
  const found = [...document.querySelectorAll("iframe")].map(look);
  document.querySelector("pre").textContent = JSON.stringify(found);
};
</script>
"""


def look(browser: Browser, page: str, width: int, *flags: str) -> dict[str, Any]:
    """What a browser shows of a page at a width: its visible text, how wide it gets, its colours."""
    return look_at_all(browser, [(page, width)], *flags)[0]


def look_at_all(browser: Browser, pages: Sequence[tuple[str, int]], *flags: str) -> list[dict[str, Any]]:
    """As ``look``, of several pages with their widths, with one start of the browser."""
    frames = "".join(
        f'<iframe width="{width}" height="900" style="border:0" srcdoc="{escape(page)}"></iframe>'
        for page, width in pages
    )
    dom = browser.run(f"<!DOCTYPE html><meta charset=utf-8>{frames}<pre></pre>{LOOK}", "--dump-dom", *flags)
    found = re.search(r"<pre>(\[.+?\])</pre>", dom[dom.rindex("<pre>") :], re.DOTALL)
    assert found is not None, dom[-500:]
    seen: list[dict[str, Any]] = json.loads(unescape(found[1]))
    assert len(seen) == len(pages)
    return seen


@pytest.mark.parametrize("paper", ["letter", "A4"])
@pytest.mark.parametrize("name", [*SHEETS])
def test_a_sheet_prints_on_its_pages_and_fetches_nothing(
    tried: Tried, browser: Browser, name: str, paper: str
) -> None:
    made = SHEETS[name](tried)
    browser.print(render(made, "html").replace("</style>", f"@page {{ size: {paper} }}\n</style>"))
    assert browser.pages == len(made.pages)
    assert browser.fetched == []


def test_a_sheet_with_all_measures_and_one_with_one_shot_print_on_one_page(full: Tried, browser: Browser) -> None:
    started = setup.start_test(full.desk, "mo", "7i", values={"loft_deg": 32.0}, criteria=CRITERIA)
    shots.add_shots(full.desk, "mo", started.ref, [dict.fromkeys(COLUMNS, 9.0)])
    for ref in (full.ref, started.ref):
        page = render(verdict.document(verdict_sheets(full.desk, "mo", ref)), "html")
        browser.print(page.replace("</style>", "@page { size: letter }\n</style>"))
        assert browser.pages == 2  # the front page, and the numbers in full


def test_what_fetches_and_what_runs_over_is_noticed(browser: Browser) -> None:
    browser.print('<!DOCTYPE html><body><img src="http://outside.test/x.png">' + "<p>line</p>" * 200)
    assert browser.fetched == ["http://outside.test/x.png"]
    assert browser.pages > 1


def test_what_was_typed_neither_runs_nor_fetches(evil: Tried, browser: Browser) -> None:
    seen = look(browser, render(SHEETS["verdict"](evil), "html"), PHONE)
    assert "<script>alert(1)</script>" in seen["text"]
    assert browser.fetched == []


def test_phone_and_tablet_show_all_of_every_sheet_without_scrolling_sideways(tried: Tried, browser: Browser) -> None:
    made = {name: SHEETS[name](tried) for name in SHEETS}
    wanted = [(name, width) for name in made for width in (PHONE, TABLET)]
    too_wide = ('<!DOCTYPE html><body><p style="width: 500px">runs over</p>', PHONE)
    *found, over = look_at_all(browser, [*((render(made[name], "html"), width) for name, width in wanted), too_wide])
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
    light = look(browser, page, DESKTOP, "--blink-settings=preferredColorScheme=1")
    dark = look(browser, page, DESKTOP, "--blink-settings=preferredColorScheme=0")
    assert _brightness(light["paper"]) > 200 > 100 > _brightness(light["ink"])
    assert _brightness(dark["paper"]) < 100 < 200 < _brightness(dark["ink"])


def _brightness(colour: str) -> float:
    return sum(map(float, re.findall(r"[\d.]+", colour)[:3])) / 3
