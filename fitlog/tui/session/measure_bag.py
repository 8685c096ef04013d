"""Measure the bag in a session: one key goes on to the next club."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from fitlog.saving.desk import Desk
from fitlog.tui.base.page import Page
from fitlog.tui.session.state import SessionState

if TYPE_CHECKING:
    from fitlog.saving.save import SaveResult
    from fitlog.views.session.measuring_cells import MeasuringCell


class MeasuringRun:
    """The cells of club and swing, and the tests that were begun for them."""

    def __init__(self, page: Page, state: SessionState, show: Callable[[], object]) -> None:
        self._page, self._state, self._show = page, state, show
        self._test_refs = {state.test_ref}
        self._is_over = False

    def read(self) -> None:
        """Find out the cells, and what was hit today."""

        def work(desk: Desk) -> "tuple[MeasuringCell, ...]":
            from fitlog.views.session.measuring_cells import measuring_cells

            return measuring_cells(desk, self._state.player)

        self._page.ask(work, self._know, group="cells")

    def _know(self, cells: "tuple[MeasuringCell, ...]") -> None:
        self._state.cells = cells
        self._show()

    def turn(self, by: int, then: Callable[[str], None]) -> None:
        """Go on to another cell; its test is begun where it has none today."""
        place = self._state.place_of_cell + by
        if not 0 <= place < len(self._state.cells):
            end = "first" if by < 0 else "last"
            self._page.notice(f"this is the {end} club to measure; esc ends, the bag then shows the gaps", "note")
            return
        cell, player = self._state.cells[place], self._state.player

        def work(desk: Desk) -> str:
            from fitlog.actions.session.measure_bag import open_cell

            return open_cell(desk, player, cell)

        def open_test(ref: str) -> None:
            self._test_refs.add(ref)
            then(ref)

        self._page.save(work, open_test)

    def end(self) -> None:
        """The clubs rest on what was hit; tests without a shot go."""
        if self._is_over:
            return
        self._is_over = True
        player, started = self._state.player, frozenset(self._test_refs)

        def work(desk: Desk) -> "SaveResult | None":
            from fitlog.actions.session.measure_bag import end_measuring

            return end_measuring(desk, player, started)

        def then(result: "SaveResult | None") -> None:
            if result:
                self._page.services.show_notice(result.subject)
                self._page.services.refresh_page()

        self._page.services.save(work, then)
