"""report: the four sheets in their formats, to standard output or a file."""

import re
import sys
from datetime import date
from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run
from tests.report.page import checked


@pytest.mark.parametrize(
    ("words", "title"),
    [
        (("bag", "mo"), "Mo Ferrant"),
        (("verdict", "mo"), "3-wood"),
        (("build", "mo", "3w"), "Build: 3w"),
        (("day", "2026-04-18"), "Day of 2026-04-18"),
    ],
)
def test_each_sheet_in_each_format(fitlog: Run, words: tuple[str, ...], title: str) -> None:
    fitlog("test", "mo", "3w", "--reference", "--shot", "226 2 149")
    fitlog("test", "mo", "3w", "--set", "shaft.model=Osier 75", "shaft.tip_trim_in=1.25", "--shot", "230 4L 150")
    if words[0] == "day":
        words = ("day", str(fitlog("session", "mo", "--json").json["session"])[:10])
        title = f"Day of {words[1]}"
    text, md, page = (fitlog("report", *words, "--format", form) for form in ("text", "md", "html"))
    assert (text.status, md.status, page.status) == (0, 0, 0)
    assert text.out.startswith(title)
    assert md.out.startswith(f"# {title}")
    assert title in checked(page.out).text
    assert fitlog("report", *words, "--json").json["pages"]


def test_a_file_is_written_in_the_format_of_its_name(fitlog: Run, tmp_path: Path) -> None:
    for name, start in (("bag.html", "<!DOCTYPE html>"), ("bag.md", "# Mo"), ("bag.txt", "Mo F")):
        ran = fitlog("report", "bag", "mo", "-o", str(tmp_path / name))
        assert (ran.status, ran.out) == (0, f"wrote {tmp_path / name}\n")
        assert (tmp_path / name).read_text(encoding="utf-8").startswith(start)


def test_an_ending_that_is_no_format_is_refused_and_nothing_is_written(fitlog: Run, tmp_path: Path) -> None:
    for ending in (".docx", ".png", ".csv"):
        ran = fitlog("report", "bag", "mo", "-o", str(tmp_path / f"bag{ending}"))
        assert ran.status == 2
        assert f"cannot be written as {ending}; end it in .html, .pdf, .md or .txt" in ran.err
    assert list(tmp_path.glob("bag*")) == []


def test_a_pdf_is_written_where_its_library_is(fitlog: Run, tmp_path: Path) -> None:
    pytest.importorskip("weasyprint", reason="fitlog[pdf] is not installed here")
    assert fitlog("report", "bag", "mo", "-o", str(tmp_path / "bag.pdf")).status == 0
    assert (tmp_path / "bag.pdf").read_bytes().startswith(b"%PDF-")
    assert "a PDF goes into a file" in fitlog("report", "bag", "mo", "--format", "pdf").err


def test_without_the_library_a_pdf_says_what_to_install(
    fitlog: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    ran = fitlog("report", "bag", "mo", "-o", str(tmp_path / "bag.pdf"))
    assert (ran.status, "pip install 'fitlog[pdf]'" in ran.err) == (1, True)
    assert not (tmp_path / "bag.pdf").exists()


def test_the_shop_stands_on_every_sheet(desk: Desk, fitlog: Run) -> None:
    path = Path(desk.root, "workspace.toml")
    path.write_text(
        path.read_text() + 'shop.name = "Gap & Sons"\nshop.contact = "by the mill"\nshop.logo = "logo.svg"\n'
    )
    Path(desk.root, "logo.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg"/>')
    text, page = (fitlog("report", "bag", "mo", "--format", form).out for form in ("text", "html"))
    assert text.startswith("Gap & Sons · by the mill\n")
    assert f"printed {date.today().isoformat()}" in text
    assert 'src="data:image/svg+xml;base64,' in page
    assert "Gap &amp; Sons" in page
    Path(desk.root, "logo.svg").unlink()
    ran = fitlog("report", "bag", "mo")
    assert (ran.status, "there is no such logo" in ran.err) == (0, True)


def test_a_file_that_cannot_be_written_is_refused_by_name(fitlog: Run, tmp_path: Path) -> None:
    path = tmp_path / "none" / "bag.html"
    ran = fitlog("report", "bag", "mo", "-o", str(path))
    assert ran.status == 1
    assert ran.err == (f"error: {path}: the sheet cannot be written: No such file or directory; name another file\n")


def test_a_bag_card_of_an_earlier_bag(fitlog: Run) -> None:
    fitlog("bag-set", "mo", "3w", "--set", "loft_deg=17", "--reason", "higher")
    season = fitlog("bag", "mo", "--json").json["season"]
    assert "17°" in fitlog("report", "bag", "mo").out
    before = fitlog("report", "bag", "mo", "--at", "HEAD~1").out
    assert re.search(r"as at \d{4}-\d\d-\d\d \d\d:\d\d", before)
    assert "17°" not in before
    assert "17°" in fitlog("report", "bag", "mo", "--at", season).out
    assert "17°" in fitlog("bag", "mo", "--at", season).out
    assert fitlog("report", "bag", "mo", "--at", "never").status == 2
    assert fitlog("bag", "mo", "--at", "never").status == 2


def test_what_is_not_there_is_said(fitlog: Run) -> None:
    assert fitlog("report", "day", "soon").err == "error: 'soon' is not a date; write a date such as 2026-04-18\n"
    assert fitlog("report", "verdict", "mo").status == 2
    assert fitlog("report", "build", "mo", "9w").status == 2


def test_initials(fitlog: Run) -> None:
    assert "M. F." in fitlog("report", "bag", "mo", "--initials").out
    assert "Ferrant" not in fitlog("report", "bag", "mo", "--initials").out


def test_every_sheet_has_its_help(fitlog: Run, capsys: pytest.CaptureFixture[str]) -> None:
    for name in ("bag", "verdict", "build", "day"):
        assert "--format {text,html,md,pdf}" in fitlog("report", name, "--help").out
