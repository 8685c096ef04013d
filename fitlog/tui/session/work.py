"""What the session's screen has done by the worker."""

from typing import TYPE_CHECKING

from fitlog.tui.base.work.worker import Work

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk


def end_shots(desk: "Desk") -> None:
    """The test is over for now: what was typed becomes a change of the history."""
    from fitlog.actions.session.shots import end_shots

    end_shots(desk)


def prepare_saving(player: str, session: str) -> Work:
    """Have git and the session's file at hand before the first shot is typed."""

    def work(desk: "Desk") -> None:
        from fitlog.actions.session.shots import prepare_shots

        prepare_shots(desk, player, session)

    return work
