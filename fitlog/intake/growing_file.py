"""A shot file that grows while it is read.

Each of its rows once, half-written last lines waited for.
"""

from collections import Counter
from collections.abc import Hashable, Mapping
from typing import Any, NamedTuple

from fitlog.intake.layout import lay_out
from fitlog.intake.reading import Intake, read_shots
from fitlog.records.models.importer import Importer
from fitlog.records.schema.fields import quote_value


class NewRows(NamedTuple):
    """The new shots of one group, and unreadable rows that were not told yet."""

    group: str
    shots: tuple[Mapping[str, Any], ...]


class GrowingFile:
    """What is known of one file.

    The shots that it has given already, counted, wherever they stand in it.

    A file that is written anew with its old rows gives them no second time, whether new rows come first or last.
    """

    def __init__(self) -> None:
        self._counts: Counter[Hashable] = Counter()
        self._reports: set[str] = set()
        self._open_end: tuple[int, bytes] | None = None  # where a last row without its end began, and what it was

    def skip(self, data: bytes, importer: Importer) -> None:
        """Take what a file holds already as given."""
        self.take(data, importer, ended=False)

    def take(self, data: bytes, importer: Importer, ended: bool) -> tuple[list[NewRows], list[str]]:
        """The new shots in these bytes by group, and what cannot be read of them.

        What was told before is left out.

        A last line without its end is left for the next time, unless the file ``ended`` there.
        Raises Refusal where the file cannot be read by this map.
        """
        whole = data if ended else complete_lines(data)
        if not whole.strip():
            return [], []
        changed = self._pass_changed_row(whole, importer)
        intake = read_shots(whole, importer)
        self._remember_open_end(whole)
        return self._new(intake), [*changed, *self._new_problems(intake)]

    def _pass_changed_row(self, data: bytes, importer: Importer) -> list[str]:
        """Pass over the row that was taken before its end came, and went on after all."""
        start, before = self._open_end or (len(data), b"")
        now = (data[start:].splitlines() or [b""])[0]
        if now == before or not now.startswith(before):
            return []
        self._new(read_shots(data[: start + len(now)], importer))
        was, became = (each.decode("utf-8", "replace").strip() for each in (before, now))
        return [f"its last row came in as {quote_value(was)} and is {quote_value(became)} now; correct that shot"]

    def _remember_open_end(self, data: bytes) -> None:
        start = len(complete_lines(data))
        self._open_end = (start, data[start:]) if start < len(data) else None

    def _new(self, intake: Intake) -> list[NewRows]:
        seen: Counter[Hashable] = Counter()
        out = []
        for group, shots in intake.groups.items():
            new = []
            for shot in shots:
                key = (group, tuple(sorted((name, str(value)) for name, value in shot.items())))
                seen[key] += 1
                if seen[key] > self._counts[key]:
                    new.append(shot)
            if new:
                out.append(NewRows(group, tuple(new)))
        self._counts |= seen
        return out

    def _new_problems(self, intake: Intake) -> list[str]:
        out = [text for each in intake.unreadable if (text := str(each)) not in self._reports]
        self._reports.update(out)
        return out


def has_whole_last_row(data: bytes, importer: Importer) -> bool:
    """Whether the last row is whole; one with too few cells is still being written.

    Raises Refusal where the file cannot be read by this map.
    """
    layout = lay_out(data, importer)
    return not layout.body or len(layout.body[-1].cells) >= len(layout.header.cells)


def complete_lines(data: bytes) -> bytes:
    """The bytes up to the last line end.

    >>> complete_lines(b"Carry\\n152\\n15")
    b'Carry\\n152\\n'
    """
    return data[: max(data.rfind(b"\n"), data.rfind(b"\r")) + 1]
