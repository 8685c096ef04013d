"""Rows can be read in every theme, the selected one too, with all colours and with the 256 of simpler terminals."""

from collections.abc import Callable

import pytest
from rich.color import Color, ColorSystem
from textual.theme import Theme

from fitlog.tui.themes import THEMES

LEAST = 4.5  # WCAG 2.2, 1.4.3 Contrast (Minimum), level AA [m]
INKS = ("ink-muted", "ink-good", "ink-warn", "ink-bad", "ink-strong", "ink-accent")
DEPTHS: dict[str, Callable[[Color], Color]] = {
    "all colours": lambda colour: colour,
    "256 colours": lambda colour: colour.downgrade(ColorSystem.EIGHT_BIT),
}


def luminance(colour: Color) -> float:
    """Relative luminance. Source: WCAG 2.2, definition of relative luminance [m]."""
    parts = [part / 255 for part in colour.get_truecolor()]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: Color, other: Color) -> float:
    """(lighter + 0.05) / (darker + 0.05). Source: WCAG 2.2, definition of contrast ratio [m]."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_that_of_the_source() -> None:
    black, white = Color.parse("#000000"), Color.parse("#ffffff")
    assert contrast(black, white) == pytest.approx(21.0)  # the largest there is, as WCAG states [m]
    assert contrast(white, white) == 1.0


@pytest.mark.parametrize("depth", DEPTHS)
@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_every_ink_can_be_read_on_every_ground(theme: Theme, depth: str) -> None:
    shown = DEPTHS[depth]
    grounds = {
        "here": theme.variables["here"],
        **{name: str(getattr(theme, name)) for name in ("background", "surface", "panel")},
    }
    inks = {name: theme.variables[name] for name in INKS}
    inks |= {"foreground": str(theme.foreground), "primary": theme.primary}
    low = {
        (ink, ground): round(found, 2)
        for ink, one in inks.items()
        for ground, other in grounds.items()
        if (found := contrast(shown(Color.parse(one)), shown(Color.parse(other)))) < LEAST
    }
    assert not low
    tones = {shown(Color.parse(grounds[name])).get_truecolor() for name in ("here", "background")}
    assert len(tones) == 2, "the selected row stands out from the others"
