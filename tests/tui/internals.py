"""The one place that knows what Textual keeps to itself, where it has no public way."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any
from unittest import mock

from rich.console import RenderableType
from textual._compositor import Compositor
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet
from textual.keys import _character_to_key
from textual.screen import Screen
from textual.strip import Strip

from fitlog.tui.app import FitlogApp


def key_name(char: str) -> str:
    """What a terminal calls the key of a letter or sign; ``Pilot.press`` has it, with waits of its own."""
    return _character_to_key(char)


def is_quiet(app: FitlogApp) -> bool:
    """Whether nothing waits to be handled, by any widget of any screen, nor to be painted.

    Without it each key would cost all rounds of waiting.
    """
    screen = app.screen
    if screen._callbacks or screen._dirty_widgets or screen._layout_required or screen._repaint_required:
        return False
    pumps = (app, *app._registry)
    return not any(each.message_queue_size + len(each._next_callbacks) for each in pumps)


def strips(app: FitlogApp) -> list[Strip]:
    """The screen's rows with their colours; the public ways give a picture, but no rows."""
    return app.screen._compositor.render_strips()


@contextmanager
def paint_on_demand() -> Iterator[None]:
    """Paint where a test looks, and not after every key.

    Without a terminal Textual works out each paint and drops it, a quarter of a test's time. Pictures and ``strips``
    paint the whole screen; how single paints reach a terminal is seen by the journeys through a real one.
    """
    whole = Compositor.render_update

    def render_update(
        compositor: Compositor,
        full: bool = False,
        screen_stack: list[Screen[object]] | None = None,
        simplify: bool = False,
    ) -> RenderableType | None:
        if full:
            return whole(compositor, full, screen_stack, simplify)
        compositor._dirty_regions.clear()
        return None

    with mock.patch.object(Compositor, "render_update", render_update):
        yield


_parsed: dict[object, list[RuleSet]] = {}


@contextmanager
def styles_parsed_once() -> Iterator[None]:
    """Parse each style sheet once for all apps of a process; each app has a memory of its own for it.

    Parsing is a twelfth of a test's time. Rules are read and never changed once they are parsed.
    """
    parse = Stylesheet._parse_rules

    def parse_rules(sheet: Stylesheet, css: str, *args: Any, **keys: Any) -> list[RuleSet]:
        known_by = css, args, tuple(keys.items()), tuple(sheet._variables.items())
        if known_by not in _parsed:
            _parsed[known_by] = parse(sheet, css, *args, **keys)
        return _parsed[known_by]

    with mock.patch.object(Stylesheet, "_parse_rules", parse_rules):
        yield
