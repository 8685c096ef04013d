"""Read TOML ten times as fast as ``tomllib``, and to the same values.

``rtoml`` reads a newer TOML, in which more is allowed, and gives dates with an offset a class of its own. A text in
which that could show, and one that it refuses, goes to ``tomllib``, which alone decides what is TOML here.
"""

import re
import sys
import tomllib
from typing import Any

from fitlog.records.schema.limits import chain_line, excess, size_excess

# Below this, importing rtoml costs more than it saves.
_SHORT = 16_000

# What the newer TOML allows, or what only looks so, in a note or a comment: that costs time and nothing else. A comma
# or a line end before an inline table's end; and any time but a local one with its seconds and no date before it.
# Compiled at need, as start-up reads short files alone.
_COMMA, _LINE_END = r",\s*\}", r"\{[^}\n]*\n"
_NO_SECONDS_OR_GLUED = r"(?<=\d\d:)(?:(?<=\w\d\d:)|(?<!:\d\d:)(?!\d\d:\d\d))\d\d"
_WITH_OFFSET = r"\d\d:\d\d(?:\.\d++)?+(?:[\d:.]|[ \t]*[Zz+-])"
_TIME = f":(?:{_NO_SECONDS_OR_GLUED}|{_WITH_OFFSET})"  # a colon first: that is found fastest
_WORDS = ("\ufeff", "\\e", "\\x")  # a byte-order mark; two escapes in a string


def load_toml(text: str) -> dict[str, Any]:
    """The table of a TOML text.

    Raises what ``tomllib.loads`` raises.

    >>> load_toml("at = 10:31:00")
    {'at': datetime.time(10, 31)}
    """
    worth_it = len(text) > _SHORT or "rtoml" in sys.modules
    if worth_it and not _may_differ(text):
        import rtoml

        try:
            return rtoml.loads(text)
        except ValueError:  # every error of rtoml's is one
            pass
    return tomllib.loads(text)


def _may_differ(text: str) -> bool:
    """Whether the two readers might read this text differently."""
    return any(word in text for word in _WORDS) or any(
        re.search(each, text) is not None for each in (_COMMA, _LINE_END, _TIME)
    )


def expect_many() -> None:
    """Have short texts read by the fast reader too.

    That many are to come makes loading it worth its cost.
    """
    import rtoml  # noqa: F401


def load_within_limits(data: bytes) -> dict[str, Any] | None:
    """The table of a file's bytes; None for no TOML or one beyond the limits.

    Those of ``records.schema.limits``.
    """
    if size_excess(len(data)):
        return None
    try:
        text = data.decode("utf-8-sig")
        table = None if chain_line(text) else load_toml(text)
    except (ValueError, RecursionError):  # a number of over 4,300 digits is a plain ValueError
        return None
    return None if table is None or excess(table) else table
