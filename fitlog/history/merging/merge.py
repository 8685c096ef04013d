"""Merge two tables of one origin by meaning: by club, by test, by key.

What two people changed in different places is simply taken from both. Only where both changed the same thing in
different ways is there a conflict; one of the two then stands in the merged table, and the conflict says both.
The outcome does not depend on which of the two is called ours.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from fitlog.records.models.bag import CLUB_KEYS, PROVEN, TRIAL
from fitlog.records.naming.refs import ClubRef
from fitlog.records.schema.rows import address, canonical, key_rows, rows_in

Table = Mapping[str, Any]
Rows = Mapping[str, Table]
SETUP = "setup"
# Tables whose values belong together: one side's is taken whole, never half of each.
_WHOLE_KEYS = frozenset({"verdict", "ball", "readings", "numbers", "predicted", "guess"})
_SETS = frozenset({"evidence", "prefers", "clubs"})
_OF_CLUB = CLUB_KEYS | {"notes"}  # the rest of a club's table is its setup


class Conflict(NamedTuple):
    """One thing that both sides changed in different ways; None was taken away.

    ``where`` leads to it: list, row, list, row (``("club", "3w")``). ``key`` is dotted; empty for the whole row, or
    for the whole file where ``where`` is empty too; ``setup`` for all of a club's or test's setup.
    """

    where: tuple[str, ...]
    key: str
    base: Any
    ours: Any
    theirs: Any

    def swap(self) -> "Conflict":
        """The same, seen from the other side."""
        return self._replace(ours=self.theirs, theirs=self.ours)


class Merge(NamedTuple):
    """The merged table and what could not be told."""

    table: dict[str, Any]
    conflicts: tuple[Conflict, ...]


Stands = Callable[[Conflict], bool]


def by_content(conflict: Conflict) -> bool:
    """Which value stands where nothing else is known; the same for either side."""
    return canonical(conflict.ours) >= canonical(conflict.theirs)


def leads(ours: Table, theirs: Table) -> bool:
    """Whether ours gives the order of the rows: the same side, whichever asks."""
    return canonical(ours) >= canonical(theirs)


def merge(kind: str, base: Table, ours: Table, theirs: Table, stands: Stands = by_content) -> Merge:
    """Bring two tables of a file of this kind (bag, session, player …) together.

    ``stands(conflict)`` says whether ours stands where both changed the same thing. What was changed on one side
    stands against its removal on the other, whatever ``stands`` says: nothing vanishes.

    >>> base = {"club": [{"slot": "3w", "length_in": 43.0}]}
    >>> ours = {"club": [{"slot": "3w", "length_in": 42.5}]}
    >>> theirs = {"club": [{"slot": "3w", "length_in": 43.0, "lie_deg": 57.0}, {"slot": "52"}]}
    >>> merge("bag", base, ours, theirs).table
    {'club': [{'slot': '3w', 'length_in': 42.5, 'lie_deg': 57.0}, {'slot': '52'}]}
    """
    if leads(ours, theirs):
        work = _Merge(stands)
        table = work.file(kind, base, ours, theirs)
        return Merge(table, tuple(work.conflicts))
    work = _Merge(lambda conflict: not stands(conflict.swap()))
    table = work.file(kind, base, theirs, ours)
    return Merge(table, tuple(conflict.swap() for conflict in work.conflicts))


def is_same(one: Any, other: Any) -> bool:
    """Whether two values are the same, not-a-number included."""
    return bool(one == other) or canonical(one) == canonical(other)


class _Merge:
    """One merge under way; ``a`` is the side that leads, ``b`` the other."""

    def __init__(self, stands: Stands) -> None:
        self.stands = stands
        self.conflicts: list[Conflict] = []

    def file(self, kind: str, base: Table, a: Table, b: Table) -> dict[str, Any]:
        if is_same(a, b) or is_same(a, base) or is_same(b, base):
            return dict(b if is_same(a, base) else a)
        if kind == "bag":
            a, b = _one_name(base, a, b)
        table = self.table((), "", base, a, b)
        if kind == "bag":
            self._keep_named(table, base, a, b)
        return table

    def value(self, where: tuple[str, ...], key: str, base: Any, a: Any, b: Any) -> Any:
        """One value as a whole."""
        if is_same(a, b) or is_same(b, base):
            return a
        if is_same(a, base):
            return b
        conflict = Conflict(where, key, base, a, b)
        self.conflicts.append(conflict)
        if a is None or b is None:
            return b if a is None else a
        return a if self.stands(conflict) else b

    def table(self, where: tuple[str, ...], prefix: str, base: Table, a: Table, b: Table) -> dict[str, Any]:
        """Key by key; a table left without a word is left out."""
        out = {}
        for key in dict.fromkeys([*a, *b]):
            got = self._key(where, prefix, key, base.get(key), a.get(key), b.get(key))
            if got is not None and (got != {} or {} in (a.get(key), b.get(key))):
                out[key] = got
        return out

    def _key(self, where: tuple[str, ...], prefix: str, key: str, base: Any, a: Any, b: Any) -> Any:
        path = prefix + key
        if is_same(a, b) or key in _WHOLE_KEYS:
            return self.value(where, path, base, a, b)
        if _tables(base, a, b):
            if path == SETUP:
                return self._unit(where, base or {}, a or {}, b or {})
            return self.table(where, path + ".", base or {}, a or {}, b or {})
        if not prefix and _lists(base, a, b):
            rows = [key_rows(key, each or []) for each in (base, a, b)]
            if key == "club":
                rows = [rows[0], *(match_clubs(base or [], each or []) for each in (a, b))]
            if None not in rows and any(rows):
                return self._rows(where, key, *(each or {} for each in rows)) or None
        if key in _SETS and _lists(base, a, b):
            return _union(base or [], a or [], b or [])
        return self.value(where, path, base, a, b)

    def _rows(self, where: tuple[str, ...], name: str, base: Rows, a: Rows, b: Rows) -> list[Any]:
        out: dict[str, Any] = {}
        for known_by in [*a, *(each for each in b if each not in a)]:
            place = (*where, name, known_by)
            got = self._row(name, place, base.get(known_by), a.get(known_by), b.get(known_by))
            if got is not None:
                out[known_by] = got
        rows = list(out.values())
        return _by_time(rows, len([each for each in a if each in out])) if name == "shots" else rows

    def _row(self, name: str, place: tuple[str, ...], base: Table | None, a: Table | None, b: Table | None) -> Any:
        if a is None or b is None or base is None or is_same(a, base) or is_same(b, base):
            return self.value(place, "", base, a, b)
        before = len(self.conflicts)
        row = self._club(place, base, a, b) if name == "club" else self.table(place, "", base, a, b)
        if name == "club":  # a club that was given an id meanwhile is found by it
            place = (*place[:-1], address(row))
            self.conflicts[before:] = [each._replace(where=place) for each in self.conflicts[before:]]
        return row

    def _unit(self, where: tuple[str, ...], base: Table, a: Table, b: Table) -> dict[str, Any]:
        """Merge a setup: different keys come from both.

        Where the same key differs, one whole setup stands.
        """
        trial = _Merge(self.stands)
        merged = trial.table(where, "", base, a, b)
        if not trial.conflicts:
            return merged
        chosen: dict[str, Any] = dict(self.value(where, SETUP, dict(base), dict(a), dict(b)))
        return chosen

    def _club(self, where: tuple[str, ...], base: Table, a: Table, b: Table) -> dict[str, Any]:
        rows = (base, a, b)
        setups = [{key: value for key, value in row.items() if key not in _OF_CLUB} for row in rows]
        setup = self._unit(where, *setups)
        own: dict[str, Any] = {}
        for key in dict.fromkeys([*a, *b]):
            if key not in _OF_CLUB:
                continue
            was, mine, other = (row.get(key) for row in rows)
            if key in ("since", "standing") and len({canonical(was), canonical(mine), canonical(other)}) == 3:
                own[key] = _later(mine, other) if key == "since" else TRIAL
            elif (got := self._key(where, "", key, was, mine, other)) is not None:
                own[key] = got
        if own.get("standing") == PROVEN and not any(
            row.get("standing") == PROVEN and is_same(each, setup) for row, each in zip(rows, setups, strict=True)
        ):
            own["standing"] = TRIAL  # no one has proven this very setup
        both = {**own, **setup}
        return {key: both[key] for key in dict.fromkeys([*a, *b, *both]) if key in both}

    def _keep_named(self, table: dict[str, Any], base: Table, a: Table, b: Table) -> None:
        """Keep a club that one side took out and the other's make-up names.

        Taking it out is a choice.
        """
        named = [name for makeup in rows_in(table, "makeup") for name in makeup.get("clubs", [])]
        for name in dict.fromkeys(named):
            if _find_clubs(name, table.get("club", [])):
                continue
            for gone in _find_clubs(name, rows_in(base, "club"))[:1]:
                kept = [gone if _find_clubs(name, rows_in(side, "club")) else None for side in (a, b)]
                self.conflicts.append(Conflict(("club", address(gone)), "", gone, *kept))
                table["club"] = [*table.get("club", []), gone]


def _find_clubs(name: str, clubs: Sequence[Table]) -> list[Table]:
    return [club for club in clubs if name in (address(club), club.get("slot"))]


def _tables(*values: Any) -> bool:
    return all(value is None or isinstance(value, Mapping) for value in values)


def _lists(*values: Any) -> bool:
    return all(value is None or isinstance(value, list) for value in values)


def _later(one: Any, other: Any) -> Any:
    given = [each for each in (one, other) if each is not None]
    return max(given, key=str) if given else None


def _union(base: Sequence[Any], a: Sequence[Any], b: Sequence[Any]) -> list[Any]:
    """What either side added, without what either took away.

    The order is that of the side that leads.
    """
    out: list[Any] = []
    for each in [*a, *b]:
        gone = each in base and not (each in a and each in b)
        if not gone and each not in out:
            out.append(each)
    return out


def _by_time(shots: list[Table], rank: int) -> list[Table]:
    """Shots in file order.

    Those that only the other side has are put in by their time where they have one.
    """
    out = shots[:rank]
    for shot in shots[rank:]:
        place = len(out)
        at = shot.get("at")
        if at is not None:
            while place and str(out[place - 1].get("at", "")) > str(at):
                place -= 1
        out.insert(place, shot)
    return out


def _pairs(base: Sequence[Any], side: Sequence[Any]) -> Iterator[tuple[str, Table]]:
    """A side's clubs, each with the name it had in the base.

    A club without an id gets one when another comes beside it; it is still the same club.
    """
    names = {address(row) for row in base}
    left = names - {address(row) for row in side}
    for row in side:
        name, slot = address(row), str(row.get("slot", ""))
        if name not in names and slot in left:
            was = next(each for each in base if address(each) == slot)
            rivals = [each for each in side if each.get("slot") == slot and address(each) not in names]
            like = [each for each in rivals if _without_id(each) == _without_id(was)]
            if row is (like or rivals)[0]:
                name = slot
        yield name, row


def _without_id(row: Table) -> dict[str, Any]:
    return {key: value for key, value in row.items() if key not in ("id", "carried")}


def match_clubs(base: Any, side: Any) -> dict[str, Table] | None:
    """A side's clubs by their names in the base, in the side's order.

    Returns None where two have one name.
    """
    if key_rows("club", base) is None or key_rows("club", side) is None:
        return None
    pairs = list(_pairs(base, side))
    out = dict(pairs)
    return out if len(out) == len(pairs) else None


def _one_name(base: Table, a: Table, b: Table) -> tuple[Table, Table]:
    """Give both sides one id where each gave the same new club an id of its own."""
    clubs = [match_clubs(base.get("club") or [], side.get("club") or []) for side in (a, b)]
    if clubs[0] is None or clubs[1] is None:
        return a, b
    out = []
    for side, mine, other in ((a, clubs[0], clubs[1]), (b, clubs[1], clubs[0])):
        renamed = {}
        for name, row in mine.items():
            ids = [str(each.get("id", "")) for each in (row, other.get(name, {}))]
            if "#" not in name and all(ids) and ids[0] > ids[1]:
                renamed[address(row)] = ids[1]
        out.append(_rename_clubs(side, renamed))
    return out[0], out[1]


def _rename_clubs(side: Table, new_names: Mapping[str, str]) -> Table:
    if not new_names:
        return side
    names = {old: str(ClubRef(ClubRef.parse(old).slot, new)) for old, new in new_names.items()}
    clubs = [
        {**row, "id": new_names[address(row)]} if address(row) in new_names else row for row in rows_in(side, "club")
    ]
    out = {**side, "club": clubs}
    if "makeup" in side:
        rows = rows_in(side, "makeup")
        out["makeup"] = [{**row, "clubs": [names.get(each, each) for each in row.get("clubs", [])]} for row in rows]
    return out
