"""The contrast of two colours, by which WCAG 2.2 says whether text can be read."""

import re
from importlib.resources import files


def colour_sets(room: str, name: str) -> list[dict[str, str]]:
    """The named colours of a style sheet, a set for each of its :root blocks."""
    css = files(room).joinpath(name).read_text(encoding="utf-8")
    return [dict(re.findall(r"--(\w+): (#\w+);", block)) for block in re.findall(r"(?s):root \{.*?\}", css)]


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
