"""A TOML text in blocks, one for each ``[[row]]``.

Tomlkit parses only those that are edited.
"""

import re
from itertools import pairwise
from typing import Any

import tomlkit

Container = Any  # a tomlkit document or table: its typing does not tell them apart
# A line that can be nothing but a header: no value is a bare word like these, and no text here has several lines.
_HEADER = re.compile(
    r"^[ \t]*\[\[[ \t]*(?!(?:true|false|inf|nan)\b)([A-Za-z][\w-]*)[ \t]*\]\][ \t]*(?:#.*)?\r?$", re.M
)
_WIDE_QUOTES = ('"""', "'''")


class Blocks:
    """A text that is edited here and there.

    Each block is plain text until it is asked for.
    """

    def __init__(self, text: str) -> None:
        self._texts = _split(text)
        self._containers: dict[int, Any] = {}
        self._rows: dict[str, list[int]] = {}
        for number, block in enumerate(self._texts[1:], 1):
            self._rows.setdefault(_HEADER.match(block)[1], []).append(number)  # type: ignore[index]

    def text(self) -> str:
        """All blocks as they are now."""
        return "".join(
            tomlkit.dumps(self._containers[number]) if number in self._containers else text
            for number, text in enumerate(self._texts)
        )

    def whole_document(self) -> Container:
        """The whole text as one document of tomlkit's."""
        if len(self._texts) > 1:
            self._texts, self._containers, self._rows = [self.text()], {}, {}
        return self._document(0)

    def row(self, name: str, number: int, count: int) -> Container | None:
        """One row of the list ``name``, which has ``count``.

        Returns None where it has no block of its own.
        """
        blocks = self._rows.get(name, ())
        return self._document(blocks[number])[name][0] if len(blocks) == count else None

    def _document(self, number: int) -> Any:
        if number not in self._containers:
            text = self._texts[number]
            self._containers[number] = tomlkit.parse(text + _missing_end(text))
        return self._containers[number]


def _split(text: str) -> list[str]:
    """The head of a text, then a block from each header of a row to the next."""
    if any(quotes in text for quotes in _WIDE_QUOTES):
        return [text]
    starts = [0, *(header.start() for header in _HEADER.finditer(text)), len(text)]
    return [text[start:end] for start, end in pairwise(starts)]


def _missing_end(text: str) -> str:
    """The line end that the last line lacks.

    tomlkit would write a new key behind it on the same line.
    """
    return "" if not text or text.endswith("\n") else "\r\n" if "\r\n" in text else "\n"
