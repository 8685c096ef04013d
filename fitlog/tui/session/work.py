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
        from fitlog.saving.save import document
        from fitlog.workspace.files import read_bytes
        from fitlog.workspace.layout import session_file

        name = session_file(player, session)
        data = read_bytes(desk.root, name) if session else None
        desk.history.head()
        if data is not None:
            desk.documents[name] = (data, document(desk, name, data))

    return work
