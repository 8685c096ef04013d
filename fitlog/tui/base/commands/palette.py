"""The palette: every command of the screen, every player and part, and the look."""

from collections.abc import Callable, Iterator
from functools import partial
from typing import NamedTuple, cast

from textual.command import DiscoveryHit, Hit, Hits, Provider

from fitlog.saving.change_stamp import player_ids
from fitlog.tui.base.commands import keys
from fitlog.tui.base.page import Page
from fitlog.tui.base.pages import BAG, PART
from fitlog.tui.base.services import Services
from fitlog.tui.text.sanitize import safe


class _Item(NamedTuple):
    name: str
    run: Callable[[], object]
    help: str
    discovered: bool = True  # listed before anything is typed


class CommandPalette(Provider):
    """What can be done here."""

    async def discover(self) -> Hits:
        for item in self._items():
            if item.discovered:
                yield DiscoveryHit(item.name, item.run, help=item.help)

    async def search(self, query: str) -> Hits:
        matcher = self.matcher(query)
        for item in self._items():
            score = max(matcher.match(item.name), matcher.match(item.help) * 0.8)
            if score > 0:
                yield Hit(score, matcher.highlight(item.name), item.run, help=item.help)

    def _items(self) -> Iterator[_Item]:
        services = cast(Services, self.app)
        page = self.screen
        if isinstance(page, Page):
            yield from _commands(page)
        yield _Item("light or dark", services.switch_theme, "the other theme; remembered for this workspace")
        if isinstance(page, Page):
            for player in player_ids(services.root):
                open_bag = partial(page.open_page, BAG, player)
                yield _Item(f"player {safe(player)}", open_bag, "open this player's bag", discovered=False)
            from fitlog.views.search.part_story import part_ids

            for part in part_ids(services.root):
                open_part = partial(page.open_page, PART, ref=part)
                yield _Item(f"part {safe(part)}", open_part, "where it was tried and what it did", discovered=False)


def _commands(page: Page) -> Iterator[_Item]:
    for command in page.commands():
        key = command.key
        if page.available(command).enabled and key not in (keys.NEXT, keys.PREVIOUS):
            yield _Item(key.name, partial(page.action_run, key.id), f"{format_key_on(page, key)}  {key.help}")


def format_key_on(page: Page, key: keys.CommandKey) -> str:
    """A command's key as the page's footer writes it."""
    return keys.format_key(key.on(page.has_entry))
