"""One call of a command: its arguments, and its desk, opened when needed."""

import os
import sys
from typing import TYPE_CHECKING, Any

from fitlog.cli import output
from fitlog.records.errors import UsageError

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk
    from fitlog.saving.save import SaveResult


class Call:
    """What a command is given; ``json`` asks for one JSON document on stdout."""

    def __init__(self, args: Any, at: str = "") -> None:
        self.args = args
        self.at = at  # the workspace as it was then; empty is today's
        self.json: bool = getattr(args, "json", False)
        self._desk: Desk | None = None
        self._wrote = False
        self.output_error: OSError | None = None  # why the output of what was done could not be printed

    def desk(self) -> "Desk":
        """The workspace to read.

        Raises UsageError where there is none.
        """
        if self._desk is None:
            from fitlog.saving.desk import Desk
            from fitlog.views.workspace.location import find_root

            root = find_root(os.getcwd(), self.args.workspace)
            if self.at:
                from fitlog.saving.past import past_desk

                self._desk = past_desk(root, self.at)
            else:
                self._desk = Desk(root)
        return self._desk

    def writing_desk(self) -> "Desk":
        """The workspace to write in: what a crash left is finished first, and told."""
        from fitlog.saving.desk import refuse_past
        from fitlog.saving.save import recover

        desk = self.desk()
        refuse_past(desk)
        self._wrote = True
        for each in recover(desk):
            output.print_note(each)
        return desk

    def close(self) -> None:
        """Let go of the desk.

        Once in some hundred saves, what keeps reading quick is brought up to date.
        """
        if self._desk is None:
            return
        if self._desk.workspace.settings_fault:
            output.print_note(self._desk.workspace.settings_fault)
        if self._wrote:
            from fitlog.actions.workspace.upkeep import tend_if_due

            try:
                sys.stdout.flush()
            except OSError as error:
                self.output_error = error
            tend_if_due(self._desk)
        self._desk.close()

    def reason(self) -> str:
        """The reason given; asked for where a person sits at the terminal and gave none.

        Raises UsageError where there is none.
        """
        given: str | None = self.args.reason
        if given is None and sys.stdin is not None and sys.stdin.isatty():
            sys.stderr.write("Reason: ")
            sys.stderr.flush()
            given = sys.stdin.readline().strip() or None
        if given is None:
            raise UsageError("a reason is missing", do="say in a few words why: --reason TEXT")
        return given

    def report(self, saved: "SaveResult", **more: Any) -> int:
        """Report what an action did: the subject in golf words and every difference."""
        for each in saved.notes:
            output.print_note(each)
        try:
            if self.json:
                output.print_json({**more, **done_values(saved)})
                return 0
            output.print_line(saved.subject)
            print_differences([text for each in saved.differences if (text := str(each)) not in saved.subject])
        except OSError as error:  # it was saved all the same
            self.output_error = error
        return 0


def done_values(result: "SaveResult") -> dict[str, Any]:
    """What an action did, as plain values; no commit where nothing changed."""
    return {
        "commit": result.commit or None,
        "subject": result.subject,
        "differences": result.differences,
        "notes": result.notes,
    }


def print_differences(sentences: list[str]) -> None:
    """Differences in golf words, a line each."""
    for each in sentences:
        output.print_indented(each, "  ")
