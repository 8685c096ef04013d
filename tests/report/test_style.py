"""The style sheet: readable in light, dark and print, by the contrast that WCAG 2.2 asks of text."""

import re
from importlib.resources import files

import pytest


def colour_sets(room: str, name: str) -> list[dict[str, str]]:
    """The named colours of a style sheet, a set for each of its :root blocks."""
    css = files(room).joinpath(name).read_text(encoding="utf-8")
    return [dict(re.findall(r"--(\w+): (#\w+);", block)) for block in re.findall(r"(?s):root \{.*?\}", css)]


BLOCKS = colour_sets("fitlog.report", "sheet.css")
LIVE = colour_sets("fitlog.live", "page.css")
TEXT = ("ink", "soft", "good", "bad", "open", "s0", "s1", "s2", "s3")


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour. Source: WCAG 2.2, definition of relative luminance [m]."""
    digits = colour.lstrip("#")
    digits = digits if len(digits) == 6 else "".join(2 * digit for digit in digits)
    parts = [int(digits[n : n + 2], 16) / 255 for n in (0, 2, 4)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """(lighter + 0.05) / (darker + 0.05). Source: WCAG 2.2, definition of contrast ratio [m]."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_measure_itself() -> None:
    assert contrast("#000", "#ffffff") == pytest.approx(21.0)  # the largest there is, as WCAG states [m]


def test_there_is_a_light_a_dark_and_a_printed_set_with_the_same_names() -> None:
    assert len(BLOCKS) == 3
    assert all(set(block) == set(BLOCKS[0]) for block in BLOCKS)


@pytest.mark.parametrize("number", [0, 1, 2])
@pytest.mark.parametrize("ground", ["sheet", "wash", "paper"])
def test_every_text_and_line_stands_out_from_every_ground(number: int, ground: str) -> None:
    for name in TEXT:
        assert contrast(BLOCKS[number][name], BLOCKS[number][ground]) >= 4.5, name


@pytest.mark.parametrize("number", [0, 1])
def test_the_page_that_follows_a_session_is_as_readable(number: int) -> None:
    assert len(LIVE) == 2
    for ground in ("sheet", "wash"):
        for name in TEXT:
            assert contrast(LIVE[number][name], LIVE[number][ground]) >= 4.5, (name, ground)
