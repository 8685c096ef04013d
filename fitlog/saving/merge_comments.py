"""Merge the comments of two versions of a file; each stays with what it is about."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from fitlog.history.merging.merge import match_clubs
from fitlog.records.schema.rows import canonical, key_rows
from fitlog.workspace.locate import Path
from fitlog.workspace.text.comments import ABOVE, BEHIND, FOOT, CommentedText, Place

Table = Mapping[str, Any]
Version = tuple[str, Table]  # a text and what it says
Words = Sequence[str]
_CommentsByPlace = Mapping[Place, Words]


def merged_comments(base: Version, first: Version, second: Version, out: Version) -> str:
    """The merged text ``out`` with the comments of both sides.

    A comment that one side changed, added or took away is changed, added or taken away; where both wrote one, both
    stand. What was written at a value that is gone stands above the row or list that it was in, else at the end.
    """
    clubs = base[1].get("club")
    sides = [_named_places(version, clubs) for version in (base, first, second)]
    if not any(sides):
        return out[0]
    wanted = _merge(*sides)
    text = CommentedText(out[0])
    names = _Names(out[1], clubs)
    paths = {names.of(path): path for path in text.paths()}
    at: dict[Place, list[str]] = {}
    homeless: list[tuple[Place, Words]] = []
    left = _count_comments(sides)
    for place, words in wanted.items():
        here = Place(paths.get(place.path, ("",)) if place.path else (), place.how)
        if text.takes(here):
            at[here] = _take_comments(words, left)
        else:
            homeless.append((place, words))
    for place, words in homeless:
        at.setdefault(_refuge(text, place.path, paths), []).extend(_take_comments(words, left))
    return text.with_comments(at)


def _take_comments(words: Words, remaining: Counter[str]) -> list[str]:
    """The comments of which some are left; each is counted off."""
    out = [each for each in words if remaining[each] > 0 or each not in remaining]
    remaining.subtract(out)
    return out


def _named_places(version: Version, clubs: Any) -> dict[Place, list[str]]:
    """The comments of a text, their places by the rows' names, not numbers."""
    text, table = version
    if "#" not in text:
        return {}
    names = _Names(table, clubs)
    return {Place(names.of(place.path), place.how): words for place, words in CommentedText(text).at_places().items()}


def _merge(base: _CommentsByPlace, first: _CommentsByPlace, second: _CommentsByPlace) -> dict[Place, Words]:
    out: dict[Place, Words] = {}
    for place in dict.fromkeys([*first, *second]):
        got = _merge_words(place, *(side.get(place, ()) for side in (base, first, second)))
        if got:
            out[place] = got
    return out


def _merge_words(place: Place, base: Words, first: Words, second: Words) -> Words:
    """What stands at one place: one side's change, or both sides'."""
    if base in (first, second) or first == second:
        return second if base == first else first
    kept = [each for each in first if each in second or each not in base]
    added = [each for each in second if each not in first and each not in base]
    if place.how != BEHIND:
        return kept + added
    both = kept + added  # one line: what another merge has already joined is not said again
    return [
        each
        for number, each in enumerate(both)
        if not any(each in other for other in both[:number] + both[number + 1 :])
    ]


def _count_comments(sides: Iterable[_CommentsByPlace]) -> Counter[str]:
    """How often each comment may stand in the merged text, wherever its value went."""
    base, first, second = (Counter(each for words in side.values() for each in words) for side in sides)
    return (first | second) | (first + second - base)


def _refuge(text: CommentedText, removed: Path, paths: Mapping[Path, Path]) -> Place:
    """Where a comment goes whose value is gone.

    Above what is left of its row or list, else to the file's end.
    """
    for depth in range(len(removed), 0, -1):
        for named, path in paths.items():
            if named[:depth] == removed[:depth] and text.takes(Place(path, ABOVE)):
                return Place(path, ABOVE)
    return FOOT


class _Names:
    """Paths named by what rows are known by; their numbers differ between sides."""

    def __init__(self, table: Table, clubs: Any) -> None:
        self._table = table
        self._clubs = clubs
        self._of_lists: dict[Path, list[str]] = {}

    def of(self, path: Path) -> Path:
        """The path with a name for each number.

        >>> _Names({"club": [{"slot": "3w"}]}, []).of(("club", 0, "length_in"))
        ('club', '[3w]', 'length_in')
        """
        here: Any = self._table
        out: list[str | int] = []
        for depth, step in enumerate(path):
            if isinstance(step, int) and isinstance(here, list) and step < len(here):
                if path[:depth] not in self._of_lists:
                    self._of_lists[path[:depth]] = self._list(str(path[depth - 1]), here, depth)
                out.append(f"[{self._of_lists[path[:depth]][step]}]")
                here = here[step]
            else:
                out.append(step)
                here = here.get(step) if isinstance(here, Mapping) else None
        return tuple(out)

    def _list(self, name: str, rows: list[Any], depth: int) -> list[str]:
        of_bag = name == "club" and depth == 1
        known = match_clubs(self._clubs or [], rows) if of_bag else key_rows(name, rows)
        return list(known) if known is not None else _number_names(map(canonical, rows))


def _number_names(names: Iterable[str]) -> list[str]:
    seen: Counter[str] = Counter()
    out = []
    for name in names:
        out.append(f"{name}+{seen[name]}")
        seen[name] += 1
    return out
