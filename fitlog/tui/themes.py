"""Two themes of our own, of good contrast; no meaning in colour alone."""

from textual.theme import Theme

DARK, LIGHT = "fitlog dark", "fitlog light"


def _theme(name: str, dark: bool, colours: dict[str, str]) -> Theme:
    muted, good, warn, bad, strong = (colours.pop(key) for key in ("muted", "good", "warn", "bad", "strong"))
    here, rule = colours.pop("here"), colours.pop("rule")
    variables = {
        "ink-muted": muted, "ink-good": good, "ink-warn": warn, "ink-bad": bad, "ink-strong": strong,
        "ink-accent": colours["accent"], "here": here, "rule": rule,
        "scrollbar": rule, "scrollbar-background": colours["background"],
        "scrollbar-corner-color": colours["background"],
        "scrollbar-background-hover": colours["background"], "scrollbar-background-active": colours["background"],
        "input-cursor-background": colours["primary"], "input-cursor-foreground": colours["background"],
        "input-selection-background": here,
    }  # fmt: skip
    return Theme(name=name, dark=dark, success=good, warning=warn, error=bad, variables=variables, **colours)  # type: ignore[arg-type]


THEMES = (
    _theme(
        DARK,
        True,
        {
            "primary": "#8fc1a9", "secondary": "#d8b27a", "accent": "#e0bd7d", "foreground": "#dfe5e0",
            "background": "#141a18", "surface": "#1a2220", "panel": "#222c29",
            "muted": "#99a8a1", "good": "#93c98a", "warn": "#e8b85c", "bad": "#ef8f83", "strong": "#ffffff",
            "here": "#303e39", "rule": "#3a4843",
        },
    ),
    _theme(
        LIGHT,
        False,
        {
            "primary": "#1f6650", "secondary": "#7a5415", "accent": "#724c0b", "foreground": "#22302b",
            "background": "#fbf9f3", "surface": "#f3f0e6", "panel": "#e9e5d8",
            "muted": "#58665f", "good": "#286b2c", "warn": "#714800", "bad": "#a32e25", "strong": "#000000",
            "here": "#d3e4d8", "rule": "#c5c0b0",
        },
    ),
)  # fmt: skip
