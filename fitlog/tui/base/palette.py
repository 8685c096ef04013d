"""The palette: every command of the screen, every player, and the look."""

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING, Any, cast

from textual.command import DiscoveryHit, Hit, Hits, Provider

from fitlog.saving.change_stamp import player_ids
from fitlog.tui.base import commands as keys
from fitlog.tui.text.sanitize import safe

if TYPE_CHECKING:
    from fitlog.tui.app import FitlogApp


class Everything(Provider):
    """What can be done here."""

    def _all(self) -> Iterator[tuple[str, Any, str]]:
        from fitlog.tui.base.page import Page

        app = cast("FitlogApp", self.app)
        page = self.screen
        if isinstance(page, Page):
            for command in keys.commands(page.page):
                if page.can(command.id) and command.id not in ("next", "previous"):
                    key = keys.shown(command.on(page.page))
                    yield command.name, partial(page.action_do, command.id), f"{key}  {command.help}"
        yield "light or dark", app.switch_theme, "the other theme; remembered for this workspace"
        if isinstance(page, Page):
            for player in player_ids(app.root):
                yield f"player {safe(player)}", partial(_open_bag, page, player), "open this player's bag"

    async def discover(self) -> Hits:
        for name, action, help_text in self._all():
            if not name.startswith("player "):
                yield DiscoveryHit(name, action, help=help_text)

    async def search(self, query: str) -> Hits:
        matcher = self.matcher(query)
        for name, action, help_text in self._all():
            score = max(matcher.match(name), matcher.match(help_text) * 0.8)
            if score > 0:
                yield Hit(score, matcher.highlight(name), action, help=help_text)


def _open_bag(page: Any, player: str) -> None:
    from fitlog.tui.bag.page import BagPage

    page.go(BagPage(player))
