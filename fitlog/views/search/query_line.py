"""A typed search line as search conditions."""

import re
from typing import Any

from fitlog.records.models.session import DECISIONS

FIELDS = ("part", "kind", "player", "slot", "since", "until", "what", "role", "verdict")
_FIELD = re.compile(rf"({'|'.join(FIELDS)}):(\S*)", re.IGNORECASE)
_COMPARISON = re.compile(r"([A-Za-z_][\w.]*)\s*(>=|<=|!=|==|=|>|<|≥|≤|≠)\s*(\"[^\"]*\"|\S+)?")


def parse_find(text: str, whole: bool = False) -> dict[str, Any]:
    """Read a line of find: words, ``slot:3w``, comparisons, ``reject``.

    Comparisons are such as ``tip_trim_in >= 1``; ``reject`` is a verdict, ``part:osier`` a part.

    What is not typed to its end yet (``slot:``, ``tip_trim_in >=``) does not count; in a ``whole`` line it counts as
    it stands. ``part:`` may be given with quotes: ``part:"osier 75"``.

    >>> parse_find('toe reject slot:3w tip_trim_in >= 1')
    {'words': ['toe'], 'where': ['tip_trim_in >= 1'], 'verdict': 'reject', 'slot': '3w'}
    >>> parse_find('part:"osier 75" ane since:')
    {'words': ['ane'], 'where': [], 'part': 'osier 75'}
    """
    out: dict[str, Any] = {"words": [], "where": []}
    quoted: dict[str, Any] = {}

    def take_quoted(match: re.Match[str]) -> str:
        quoted[match[1].lower()] = match[2]
        return " "

    def take_compared(match: re.Match[str]) -> str:
        if match[3] or whole:
            out["where"].append(f"{match[1]} {match[2]} {match[3] or ''}")
        return " "

    text = re.sub(rf"\b({'|'.join(FIELDS)}):\"([^\"]*)\"?", take_quoted, text, flags=re.IGNORECASE)
    text = _COMPARISON.sub(take_compared, text)
    for word in text.split():
        field = _FIELD.fullmatch(word)
        if field and (field[2] or not whole):
            out |= {field[1].lower(): field[2]} if field[2] else {}
        elif word.lower() in DECISIONS:
            out["verdict"] = word.lower()
        else:
            out["words"].append(word)
    return out | {key: value for key, value in quoted.items() if value}
