"""Another ball to play, with a reason."""

from collections.abc import Sequence
from typing import Any

from fitlog.actions.values import typed_value
from fitlog.records.models.session import Session
from fitlog.records.wording.plurals import format_count
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.setup.value_picker import ValuePicker

_BALL = ("ball.model", "ball.year")


class BallDialog(ValuePicker):
    """The ball that the player plays, from stock or as typed, with a reason."""

    title_text = "The ball that is played"
    ready = "save, with a reason"
    needs_reason = True

    def __init__(self, player: str) -> None:
        super().__init__(player, "ball")
        self.club_count = 0
        self._is_first = False  # whether the model is asked for before anything was chosen

    def begin(self) -> None:
        super().begin()
        if self.is_finding and not self.values:
            self._is_first = True
            self.go_on(_BALL[0])

    def action_leave(self) -> None:
        """A step back; out of it, where the model asked for first was not given."""
        if self._is_first and not self.values and not self.busy:
            self.dismiss(None)
        else:
            super().action_leave()

    def read(self, desk: Desk) -> Any:
        """The ball now, and how many clubs rest on tests."""
        bag = desk.workspace.bag(self.player)
        ball = {f"ball.{key}": value for key, value in bag.ball._asdict().items() if value is not None}
        return ball, sum(bool(club.evidence) for club in bag.clubs)

    def know(self, loaded: Any) -> None:
        base, self.club_count = loaded
        super().know(base)

    def keys_to_ask(self) -> Sequence[str]:
        return _BALL

    def typed_value(self, key: str, text: str) -> Any:
        return typed_value(key, text, Session)

    def starts(self) -> str:
        count = format_count(self.club_count, "club") if self.club_count else "no club"
        return f"Another ball makes evidence stale; {count} with evidence.\n"

    def finish(self, reason: str, /) -> None:
        ball = {key.partition(".")[2]: value for key, value in {**self.base, **self.values}.items()}

        def work(desk: Desk) -> SaveResult:
            from fitlog.actions.bag.edit import set_ball

            return set_ball(desk, self.player, ball, reason)

        self.do(work, lambda done: self.close_with(done, self.about))
