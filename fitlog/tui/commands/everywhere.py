"""Commands about no player: help, moving, hand edits, sync, find, undo."""

from typing import TYPE_CHECKING

from fitlog.tui.base.commands import keys
from fitlog.tui.base.commands.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.base.pages import FIND
from fitlog.tui.base.work.sync_status import Backlog

if TYPE_CHECKING:
    from fitlog.tui.text.units import Units


def standard(page: Page) -> tuple[Command, ...]:
    """What every screen has: scrolling, help, back, quit; of the past: today."""
    return (
        today(page),
        put_back(page),
        check(page),
        settings(page),
        Command(keys.PAGE_UP, page.page_up),
        Command(keys.PAGE_DOWN, page.page_down),
        Command(keys.HELP, lambda: _help(page)),
        Command(keys.BACK, page.back),
        Command(keys.QUIT, page.quit),
    )


def today(page: Page) -> Command:
    """Leave the past for today."""
    return Command(keys.TODAY, lambda: page.services.look_at("", page.player), lambda: needs(page.services.past))


def sync_commands(page: Page) -> tuple[Command, ...]:
    """Settle what two vans changed; exchange with them."""

    def has_conflicts() -> Availability:
        found = page.services.sync_status.pending.choices_of(page.player)
        return needs(found, "nothing to choose: no value was changed in two places")

    def can_sync() -> Availability:
        return needs(not page.services.sync_status.since, "a sync is under way already")

    return (
        Command(keys.CHOOSE, lambda: _choose(page), has_conflicts),
        Command(keys.SYNC, lambda: _sync(page), can_sync),
        files(page),
    )


def hand_edits(page: Page) -> Command:
    """Save what was edited by hand as an edit of its own."""

    def run() -> None:
        # counted now: what was edited a moment ago is not known yet
        page.ask(page.read_pending, show, group="edits", holds_keys=True)

    def show(pending: Backlog) -> None:
        from fitlog.tui.dialogs.confirmations import commit_edits

        page.set_pending(pending)
        if pending.edits:
            page.app.push_screen(commit_edits())
        else:
            page.notice("nothing was edited by hand", "note")

    return Command(keys.HAND_EDITS, run, is_needed=lambda: page.services.sync_status.pending.edits)


def put_back(page: Page) -> Command:
    """Put a broken file back to its last sound version."""

    def run() -> None:
        from fitlog.tui.dialogs.confirmations import put_back

        page.app.push_screen(put_back(page.services.broken_files.faults), lambda _: page.count_pending())

    def has_broken_files() -> Availability:
        return needs(page.services.broken_files.faults, "no file is known to be broken")

    return Command(keys.PUT_BACK, run, has_broken_files)


def check(page: Page) -> Command:
    """All findings in the files and the history; what can be mended is."""

    def run() -> None:
        from fitlog.tui.dialogs.confirmations import check

        page.app.push_screen(check(), lambda _: page.count_pending())

    return Command(keys.CHECK, run)


def settings(page: Page) -> Command:
    """What holds for the whole workspace; other units are shown at once."""

    def run() -> None:
        from fitlog.tui.dialogs.workspace.settings import WorkspaceSettings

        page.app.push_screen(WorkspaceSettings(), take_units)

    def take_units(result: str | None) -> None:
        from fitlog.tui.text.units import units_of

        if result:
            page.ask(units_of, show, holds_keys=True)

    def show(units: "Units") -> None:
        page.services.units = units
        page.load()

    return Command(keys.SETTINGS, run)


def files(page: Page) -> Command:
    """Write a backup, the day's sheet, or every shot or verdict as a table."""

    def run() -> None:
        import os
        from datetime import date

        from fitlog.tui.dialogs.workspace.sheet import workspace_files

        name = os.path.basename(os.path.normpath(page.services.root))
        page.app.push_screen(workspace_files(name, date.today().isoformat()))

    return Command(keys.FILES, run)


def find(page: Page) -> Command:
    """Find across all players."""
    return Command(keys.FIND, lambda: page.open_page(FIND))


def undo(page: Page) -> Command:
    """Take back the last action; on a player's page, the last done for the player."""

    def run() -> None:
        from fitlog.tui.dialogs.confirmations import undo_last

        page.app.push_screen(undo_last(page.player))

    return Command(keys.UNDO, run)


def _help(page: Page) -> None:
    from fitlog.tui.dialogs.help import Help

    commands = [
        (keys.format_key(key), each.key)
        for each in page.commands()
        if (key := each.key.on(page.has_entry)) not in page.typed_keys
    ]
    page.app.push_screen(Help(page.kind, page.about, commands))


def _choose(page: Page) -> None:
    from fitlog.tui.dialogs.sync.conflict import ConflictDialog

    page.app.push_screen(ConflictDialog(page.services.sync_status.pending.choices_of(page.player)))


def _sync(page: Page) -> None:
    page.services.sync_status.sync()
