"""What new tests of some clubs must show from their start."""

from collections.abc import Iterable, Mapping
from typing import Any

from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.criteria.criteria import CriteriaDialog
from fitlog.tui.text.sanitize import safe


class DefaultCriteria(CriteriaDialog):
    """The criteria of a slot, a kind of club or, with empty ``clubs``, of every test."""

    always_why = "say why; ⏎ saves it    esc back"

    def __init__(self, player: str, clubs: str, now: Iterable[Mapping[str, Any]]) -> None:
        name = f"a new test of {safe(clubs)}" if clubs else "every new test"
        super().__init__(player, f"new tests {clubs}", name, now, shots=0)
        self.clubs = clubs

    def change(self, desk: Desk, criteria: list[dict[str, Any]], reason: str) -> SaveResult:
        from fitlog.actions.player import set_default_criteria

        return set_default_criteria(desk, self.player, self.clubs, criteria, reason)
