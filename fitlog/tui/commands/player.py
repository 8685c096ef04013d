"""Commands about one player, of several screens.

``page.player`` and ``page.slot`` say about whom.
"""

from collections.abc import Callable
from typing import TYPE_CHECKING

from fitlog.records.naming.refs import TestRef
from fitlog.tui.base.commands import keys
from fitlog.tui.base.commands.command import AVAILABLE, Availability, Command
from fitlog.tui.base.page import Page
from fitlog.tui.base.pages import BENCH, QUESTIONS, SESSION, TIMELINE, VERDICT

if TYPE_CHECKING:
    from fitlog.records.models.session import ClubTest
    from fitlog.saving.desk import Desk

Available = Callable[[], Availability]


def _always() -> Availability:
    return AVAILABLE


def session(page: Page) -> Command:
    """Open the tests of today, or the latest of the club."""
    return Command(keys.SESSION, lambda: page.open_page(SESSION, page.player, page.slot))


def decide(page: Page) -> Command:
    """Open the verdict that waits."""
    return Command(keys.DECIDE, lambda: page.open_page(VERDICT, page.player, page.slot))


def history(page: Page) -> Command:
    """Open every change."""
    return Command(keys.HISTORY, lambda: page.open_page(TIMELINE, page.player, page.slot))


def questions(page: Page) -> Command:
    """Open what is worth hitting next, the searches, and the record of predictions."""
    return Command(keys.QUESTIONS, lambda: page.open_page(QUESTIONS, page.player))


def which_change(page: Page, club: Callable[[], str] | None = None) -> Command:
    """Open the search of the page's club, or of ``club``; else begin one."""

    def slot() -> str:
        return club() if club else page.slot

    def open_or_begin(search: str) -> None:
        if search:
            open_search_step(page, search)
            return
        from fitlog.tui.dialogs.history.which_change import WhichChange

        page.app.push_screen(WhichChange(page.player, slot()), open_begun)

    def open_begun(search: str | None) -> None:
        if search:
            open_search_step(page, search)

    def run() -> None:
        wanted = slot()

        def look(desk: "Desk") -> str:
            from fitlog.views.history.which_change import open_search

            return open_search(desk, page.player, wanted) if wanted else ""

        page.ask(look, open_or_begin, group="search", holds_keys=True)

    return Command(keys.WHICH_CHANGE, run)


def open_search_step(page: Page, search: str) -> None:
    """Show where a search stands and what is next; then go to its test."""

    def then(test: str | None) -> None:
        if test:
            page.open_page(SESSION, page.player, ref=test)
        else:
            page.reload_if_changed()

    from fitlog.tui.dialogs.history.search_step import SearchStep

    page.app.push_screen(SearchStep(page.player, search), then)


def bench(page: Page, test: Callable[[], str] = str) -> Command:
    """Lay the club on the bench, or the test whose address ``test`` gives."""

    def run() -> None:
        ref = test()
        page.open_page(BENCH, page.player, page.slot, ref if TestRef.split(ref).test else "")

    return Command(keys.BENCH, run)


def go_back(page: Page, available: Available = _always, change: Callable[[], str] = str) -> Command:
    """Put club or bag back to the last proven setup, or to a ``change``."""

    def run() -> None:
        from fitlog.tui.dialogs.confirmations import go_back

        page.app.push_screen(go_back(page.player, page.slot, change()))

    return Command(keys.GO_BACK, run, available)


def proven(page: Page, available: Available = _always) -> Command:
    """Mark as proven."""

    def run() -> None:
        from fitlog.tui.dialogs.confirmations import mark_proven

        page.app.push_screen(mark_proven(page.player, page.slot))

    return Command(keys.PROVEN, run, available)


def why(page: Page, available: Available = _always) -> Command:
    """Show why the values of the club are what they are."""
    return Command(keys.WHY, lambda: show_why(page), available)


def show_why(page: Page) -> None:
    """Open the dialog of the club's values and where each comes from."""
    from fitlog.tui.dialogs.history.why_value import Why

    if page.slot:
        page.app.push_screen(Why(page.player, page.slot))


def details(page: Page) -> Command:
    """Change what is written of the player."""

    def run() -> None:
        from fitlog.tui.dialogs.player_details import PlayerDetails

        page.app.push_screen(PlayerDetails(page.player))

    return Command(keys.DETAILS, run)


def parts(page: Page) -> Command:
    """See and change the parts in stock."""

    def run() -> None:
        from fitlog.tui.dialogs.setup.parts import PartsDialog

        page.app.push_screen(PartsDialog(page.player, page.slot))

    return Command(keys.PARTS, run)


def seasons(page: Page) -> Command:
    """Set a season beside a season."""

    def run() -> None:
        from fitlog.tui.dialogs.history.seasons import Seasons

        page.app.push_screen(Seasons(page.player))

    return Command(keys.SEASONS, run)


def edit_criteria(page: Page, test: "ClubTest", ref: str) -> None:
    """Ask for a test's criteria, then read the screen anew."""
    from fitlog.tui.dialogs.criteria.criteria import CriteriaDialog
    from fitlog.tui.text.sanitize import safe

    name = f"{safe(test.slot)} {test.role}"
    now = [each._asdict() for each in test.criteria]

    def then(saved: bool | None) -> None:
        if saved:
            page.load()

    page.app.push_screen(CriteriaDialog(page.player, ref, name, now, len(test.shots)), then)


def plan_shots(page: Page, test: "ClubTest", test_ref: str) -> None:
    """Ask how many shots each club of a slot gets, in what order, how blind."""
    from fitlog.tui.dialogs.criteria.plan import plan_test

    page.app.push_screen(plan_test(page.player, TestRef.split(test_ref).session, test.slot), lambda _: page.load())
