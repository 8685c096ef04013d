"""Head and foot of a workspace's sheets."""

import base64
from pathlib import Path

import pytest

from fitlog.saving.desk import Desk
from fitlog.views.sheets.letterhead import LARGEST_LOGO, letterhead


def name_logo(desk: Desk, logo: str) -> None:
    Path(desk.root, "workspace.toml").write_text(f'name = "Van"\n\n[shop]\nname = "Copse"\nlogo = "{logo}"\n')


def test_without_a_shop_only_the_day_stands_there(desk: Desk) -> None:
    found = letterhead(desk)
    assert (found.shop, found.logo, found.notes) == ("", "", ())
    assert found.print_date == desk.now().date().isoformat()


def test_a_logo_is_carried_inside_the_sheet(desk: Desk) -> None:
    name_logo(desk, "mark.PNG")
    Path(desk.root, "mark.PNG").write_bytes(b"\x89PNG")
    found = letterhead(desk)
    assert (found.shop, found.notes) == ("Copse", ())
    assert found.logo == "data:image/png;base64," + base64.b64encode(b"\x89PNG").decode()


@pytest.mark.parametrize(
    ("logo", "why"), [("mark.exe", "a logo is a picture"), ("gone.svg", "there is no such logo")]
)
def test_a_logo_that_cannot_be_taken_leaves_a_note(desk: Desk, logo: str, why: str) -> None:
    name_logo(desk, logo)
    found = letterhead(desk)
    assert (found.shop, found.logo) == ("Copse", "")
    assert why in found.notes[0]


def test_a_logo_that_is_too_large_leaves_a_note(desk: Desk) -> None:
    name_logo(desk, "mark.svg")
    Path(desk.root, "mark.svg").write_bytes(b" " * (LARGEST_LOGO + 1))
    assert "larger than 512 KiB" in letterhead(desk).notes[0]
