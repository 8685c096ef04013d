"""Which line of a TOML file a value stands on.

``tomllib`` reads fast but keeps no positions, so a message about a value looks its line up here, in text that
``tomllib`` has already read without complaint.
"""

from collections.abc import Iterator
from itertools import accumulate

from fitlog.records.schema.limits import DEEPEST

Path = tuple[str | int, ...]
START, OPEN, CLOSE, END, COMMENT = "start", "open", "close", "end", "comment"
_BLANK = " \t"


def line_of(text: str, path: Path) -> int:
    """The line of the value at ``path``, or of the nearest table around it.

    0 where nothing is found.

    >>> line_of('a = 1\\n[[club]]\\nslot = "3w"\\nhead.model = "Alder"\\n', ("club", 0, "head", "model"))
    4
    """
    lines = Scanner(text).lines
    while path:
        if path in lines:
            return lines[path]
        path = path[:-1]
    return 1 if text else 0


class Scanner:
    """One pass over a valid document.

    ``lines`` gets the line of every key, table and list item.
    """

    def __init__(self, text: str) -> None:
        self.text = text + "\n"
        self.at = 0
        self.lines: dict[Path, int] = {}
        self._counts: dict[Path, int] = {}
        self._starts = [0, *accumulate(len(line) + 1 for line in self.text.split("\n"))]
        self._line = 1
        self._document()

    def _line_now(self) -> int:
        while self._line < len(self._starts) and self._starts[self._line] <= self.at:
            self._line += 1
        return self._line

    def pass_mark(self, mark: str, path: Path = (), start: int = -1) -> None:
        """Hear that a mark is passed.

        It is START, OPEN, CLOSE or END of a value or header, or a COMMENT from ``start``.
        """

    def _skip(self, newlines: bool = True) -> None:
        skipped = _BLANK + ("\r\n" if newlines else "")
        while self.at < len(self.text):
            if self.text[self.at] == "#":
                start, self.at = self.at, self.text.index("\n", self.at)
                self.pass_mark(COMMENT, start=start)
            elif self.text[self.at] in skipped:
                self.at += 1
            else:
                return

    def _document(self) -> None:
        table: Path = ()
        self._skip()
        while self.at < len(self.text):
            if self.text[self.at] == "[":
                table = self._header()
            else:
                self._pair(table)
            self._skip()

    def _header(self) -> Path:
        line, start = self._line_now(), self.at
        double = self.text.startswith("[[", self.at)
        self.at += 2 if double else 1
        keys = tuple(self._keys("]"))
        self.at += 2 if double else 1
        path = self._resolve(keys[:-1])
        full = (*path, keys[-1])
        if double:
            number = self._counts.get(full, -1) + 1
            self._counts[full] = number
            self.lines.setdefault(full, line)
            full = (*full, number)
        else:
            full = self._resolve(keys)
        for depth in range(1, min(len(full), DEEPEST + 1)):
            self.lines.setdefault(full[:depth], line)
        self.lines.setdefault(full, line)
        self.pass_mark(START, full, start)
        self.pass_mark(END, full)
        return full

    def _resolve(self, keys: tuple[str, ...]) -> Path:
        """The path of a header's tables, each list of tables at its latest item."""
        path: Path = ()
        for key in keys:
            path = (*path, key)
            if path in self._counts:
                path = (*path, self._counts[path])
        return path

    def _keys(self, end: str) -> Iterator[str]:
        while True:
            self._skip(newlines=False)
            if self.text[self.at] in "\"'":
                yield self._string()
            else:
                start = self.at
                while self.text[self.at] not in " \t.=]":
                    self.at += 1
                yield self.text[start : self.at]
            self._skip(newlines=False)
            if self.text[self.at] == end:
                return
            self.at += 1

    def _pair(self, table: Path) -> None:
        line, start = self._line_now(), self.at
        keys = tuple(self._keys("="))
        for depth in range(1, min(len(keys), DEEPEST + 1)):
            self.lines.setdefault((*table, *keys[:depth]), line)
        path = (*table, *keys)
        self.lines.setdefault(path, line)
        self.pass_mark(START, path, start)
        self.at += 1
        self._skip(newlines=False)
        self._value(path)
        self.pass_mark(END, path)

    def _value(self, path: Path) -> None:
        first = self.text[self.at]
        if first in "\"'":
            self._string()
        elif first == "[":
            self._list(path)
        elif first == "{":
            self._inline(path)
        else:
            while self.text[self.at] not in ",]}#\r\n":
                self.at += 1

    def _list(self, path: Path) -> None:
        self.at += 1
        self.pass_mark(OPEN, path)
        number = 0
        self._skip()
        while self.text[self.at] != "]":
            item = (*path, number)
            self.lines[item] = self._line_now()
            self.pass_mark(START, item, self.at)
            self._value(item)
            self.pass_mark(END, item)
            number += 1
            self._comma()
        self.pass_mark(CLOSE, path, self.at)
        self.at += 1

    def _inline(self, path: Path) -> None:
        self.at += 1
        self._skip()
        while self.text[self.at] != "}":
            self._pair(path)
            self._comma()
        self.at += 1

    def _comma(self) -> None:
        self._skip()
        if self.text[self.at] == ",":
            self.at += 1
            self._skip()

    def _string(self) -> str:
        quote = self.text[self.at]
        wide = self.text.startswith(quote * 3, self.at)
        mark = quote * 3 if wide else quote
        self.at += len(mark)
        start = self.at
        while not self.text.startswith(mark, self.at):
            self.at += 2 if quote == '"' and self.text[self.at] == "\\" else 1
        inner = self.text[start : self.at]
        self.at += len(mark)
        while (
            wide and self.text[self.at : self.at + 1] == quote
        ):  # up to two quotes may stand before the closing ones
            self.at += 1
        return inner
