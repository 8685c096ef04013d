"""The comments of a TOML file, each with the value it belongs to.

It also writes the same text with other comments.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from fitlog.workspace.locate import CLOSE, COMMENT, END, OPEN, START, Path, Scanner

ABOVE = "above"  # on lines of their own before a value or header
BEHIND = "behind"  # at the end of its last line
OPENING = "opening"  # behind the bracket that opens a list; without a path: at the head of the file
CLOSING = "closing"  # on lines of their own before the bracket that closes a list; without a path: at the file's end
_BLANK = " \t\r"


class Place(NamedTuple):
    """Where a comment stands.

    It stands at the value, header or list at ``path``, in one of the four ways.
    """

    path: Path
    how: str


HEAD, FOOT = Place((), OPENING), Place((), CLOSING)


class Comment(NamedTuple):
    """A comment: its place, its words from the ``#`` on, and its spot in the text."""

    place: Place
    words: str
    start: int
    end: int


class CommentedText:
    """A valid TOML text seen by its comments.

    >>> text = CommentedText('# mine\\na = 1  # one\\n')
    >>> [(each.place.how, each.words) for each in text.comments]
    [('above', '# mine'), ('behind', '# one')]
    """

    def __init__(self, text: str) -> None:
        scanner = _Marks(text)
        self.text = text
        self._marks = scanner.marks
        self.comments = _place_comments(text, scanner.marks)
        self._spots = {place: spot for place, spot in self._all_spots() if spot is not None}

    def at_places(self) -> dict[Place, list[str]]:
        """The comments of each place that has some, in their order."""
        out: dict[Place, list[str]] = {}
        for each in self.comments:
            out.setdefault(each.place, []).append(each.words)
        return out

    def paths(self) -> list[Path]:
        """The paths of all values, headers and items of lists, in their order."""
        return [mark.path for mark in self._marks if mark.what == START]

    def takes(self, place: Place) -> bool:
        """Whether a comment can be put at this place without moving anything else."""
        return place in (HEAD, FOOT) or place in self._spots

    def with_comments(self, comments: Mapping[Place, Sequence[str]]) -> str:
        """The text with exactly the wanted comments at each place that takes them."""
        there: dict[Place, list[Comment]] = {}
        for each in self.comments:
            there.setdefault(each.place, []).append(each)
        edits: list[tuple[int, int, str]] = []
        for place in dict.fromkeys([HEAD, *there, *comments]):
            now, then = there.get(place, []), list(comments.get(place, ()))
            if [each.words for each in now] != then:
                edits += self._edits(place, now, then)
        return _apply_edits(self.text, edits)

    def _edits(self, place: Place, now: list[Comment], then: list[str]) -> Iterable[tuple[int, int, str]]:
        if place.how == BEHIND or (place.how == OPENING and place.path):
            return self._line_end_edits(place, now, then)
        gone = [(*_whole_line(self.text, each), "") for each in now if each.words not in then]
        kept = [each.words for each in now]
        added = [words for words in then if words not in kept]
        return [*gone, *self._line_edits(place, now, added)] if added else gone

    def _line_end_edits(self, place: Place, now: list[Comment], then: list[str]) -> list[tuple[int, int, str]]:
        words = "  ".join(then)
        if not now:
            spot = self._spots[place]
            return [(spot, spot, "  " + words)] if words else []
        gone = now if not words else now[1:]  # two stand there where a list has its comma on the next line
        return [(now[0].start, now[0].end, words)] * bool(words) + [
            (_without_blanks(self.text, each.start), each.end, "") for each in gone
        ]

    def _line_edits(self, place: Place, now: list[Comment], new: list[str]) -> list[tuple[int, int, str]]:
        end = "\r\n" if "\r\n" in self.text else "\n"
        if place == HEAD:
            spot = _whole_line(self.text, now[-1])[1] if now else 0
            gap = "" if now else end
            return [(spot, spot, "".join(words + end for words in new) + gap)]
        if place == FOOT:
            start = "" if not self.text or self.text.endswith("\n") else end
            return [(len(self.text), len(self.text), start + "".join(words + end for words in new))]
        spot = _line_start(self.text, self._spots[place])
        indent = self.text[spot : self._spots[place]] or ("    " if place.how == CLOSING else "")
        return [(spot, spot, "".join(indent + words + end for words in new))]

    def _all_spots(self) -> "Iterable[tuple[Place, int | None]]":
        """Where a comment would go at each place; None where something is in its way."""
        for mark in self._marks:
            if mark.what == START:
                yield Place(mark.path, ABOVE), _first_on_line(self.text, mark.at)
            elif mark.what == CLOSE:
                yield Place(mark.path, CLOSING), _first_on_line(self.text, mark.at)
            elif mark.what == OPEN:
                yield Place(mark.path, OPENING), _last_on_line(self.text, mark.at)
            elif mark.what == END:
                yield Place(mark.path, BEHIND), _last_on_line(self.text, mark.at)


def comment_words(text: str) -> list[str]:
    """All comments of a valid text, in their order."""
    return [each.words for each in CommentedText(text).comments] if "#" in text else []


class _Mark(NamedTuple):
    what: str
    path: Path
    at: int
    end: int


class _Marks(Scanner):
    """All marks of a text in their order."""

    def __init__(self, text: str) -> None:
        self.marks: list[_Mark] = []
        super().__init__(text)

    def pass_mark(self, mark: str, path: Path = (), start: int = -1) -> None:
        """Keep the mark."""
        self.marks.append(_Mark(mark, path, self.at if start < 0 else start, self.at))


def _place_comments(text: str, marks: Sequence[_Mark]) -> list[Comment]:
    out: list[Comment] = []
    following: list[_Mark | None] = [None] * len(marks)
    for number in range(len(marks) - 2, -1, -1):
        behind = marks[number + 1]
        following[number] = following[number + 1] if behind.what == COMMENT else behind
    before: _Mark | None = None
    for mark, after in zip(marks, following, strict=True):
        if mark.what != COMMENT:
            before = mark
            continue
        end = min(mark.end, len(text))
        place = _place(text, mark, before, after)
        out.append(Comment(place, text[mark.at : end].rstrip(), mark.at, mark.at + len(text[mark.at : end].rstrip())))
    return _with_head(text, out)


def _place(text: str, comment: _Mark, before: _Mark | None, after: _Mark | None) -> Place:
    if before is not None and _first_on_line(text, comment.at) is None:
        return Place(before.path, OPENING if before.what == OPEN else BEHIND)
    if after is None:
        return FOOT
    return Place(after.path, CLOSING if after.what == CLOSE else ABOVE)


def _with_head(text: str, comments: list[Comment]) -> list[Comment]:
    """The comments that begin the file before a blank line belong to the file."""
    end = 0
    for number, each in enumerate(comments):
        if each.start != end:
            break
        _, end = _whole_line(text, each)
        if not text[end:].partition("\n")[0].strip() and each.place.how == ABOVE:
            return [*(one._replace(place=HEAD) for one in comments[: number + 1]), *comments[number + 1 :]]
    return comments


def _without_blanks(text: str, at: int) -> int:
    """The spot where the blanks before ``at`` begin."""
    return at - len(text[_line_start(text, at) : at]) + len(text[_line_start(text, at) : at].rstrip(_BLANK))


def _line_start(text: str, at: int) -> int:
    return text.rfind("\n", 0, at) + 1


def _whole_line(text: str, comment: Comment) -> tuple[int, int]:
    end = text.find("\n", comment.end)
    return _line_start(text, comment.start), len(text) if end < 0 else end + 1


def _first_on_line(text: str, at: int) -> int | None:
    """The spot itself, where nothing but blanks stands before it on its line."""
    return None if text[_line_start(text, at) : at].strip(_BLANK) else at


def _last_on_line(text: str, at: int) -> int | None:
    """The end of the spot's line, past blanks and one comma."""
    end = text.find("\n", at)
    rest = text[at : len(text) if end < 0 else end]
    words = rest.partition("#")[0].rstrip(_BLANK)
    return at + len(words) if words.strip(_BLANK) in ("", ",") else None


def _apply_edits(text: str, edits: Iterable[tuple[int, int, str]]) -> str:
    out, at = [], 0
    for start, end, words in sorted(edits, key=lambda edit: edit[:2]):
        out += [text[at:start], words]
        at = max(at, end)
    return "".join([*out, text[at:]])
