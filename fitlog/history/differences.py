"""What changed between two versions of a file, in golf words."""

from collections import Counter, deque
from collections.abc import Container, Hashable, Iterable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from fitlog.records.entry.weights import format_weights
from fitlog.records.errors import FitlogError
from fitlog.records.models.bag import CLUB_KEYS
from fitlog.records.models.session import TEST_KEYS
from fitlog.records.models.setup import setup_of
from fitlog.records.naming.slots import order_of
from fitlog.records.schema.keyed_rows import flatten_rows
from fitlog.records.schema.rows import NAME_KEYS, address, rows_in
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.words import (
    NONE,
    NOT_KNOWN,
    absent_word,
    compare_tables,
    describe_amount,
    describe_changes,
    describe_evidence,
    describe_plan,
    describe_setup,
    format_band,
    format_change,
    format_label,
    format_value,
)

Table = Mapping[str, Any]


class Difference(NamedTuple):
    """One thing that differs: where (a slot, a test, a file) and what, in words."""

    place: str
    text: str

    def __str__(self) -> str:
        return f"{self.place}: {self.text}" if self.place else self.text


# Follows from the change itself and is not news of its own.
_BOOKKEEPING_KEYS = ("since", "id", "evidence")


def bag_differences(old: Table, new: Table) -> list[Difference]:
    """Club by club in bag order, then ball, season and make-ups.

    >>> before = {"club": [{"slot": "3w", "shaft": {"model": "Gorse 70", "tip_trim_in": 0.0}}]}
    >>> after = {"club": [{"slot": "3w", "shaft": {"model": "Osier 75", "tip_trim_in": 1.25}}]}
    >>> [str(each) for each in bag_differences(before, after)]
    ['3w: shaft Gorse 70 → Osier 75; tip trim 0 → 1.25 in']
    """
    pairs = [pair for pair in _pair_clubs(rows_in(old, "club"), rows_in(new, "club")) if pair[0] != pair[1]]
    pairs.sort(key=lambda pair: order_of(_slot(pair[1] or pair[0])))
    shared = {
        slot for bag in (old, new) for slot, count in Counter(map(_slot, rows_in(bag, "club"))).items() if count > 1
    }
    out = [each for before, after in pairs for each in _club(before, after, shared)]
    rest = describe_changes(
        *({key: value for key, value in bag.items() if key not in ("club", "makeup")} for bag in (old, new))
    )
    if rest:
        out.append(Difference("bag", rest))
    names = {str(row.get("name")): row for row in rows_in(old, "makeup")}
    later = {str(row.get("name")): row for row in rows_in(new, "makeup")}
    for name in dict.fromkeys([*names, *later]):
        text = describe_changes(names.get(name, {}), later.get(name, {}), skip=("name",))
        if text:
            out.append(Difference(f"make-up {name}", text))
    return out


def _slot(row: Table | None) -> str:
    return str((row or {}).get("slot", ""))


def _pair_clubs(old: Sequence[Table], new: Sequence[Table]) -> Iterator[tuple[Table | None, Table | None]]:
    """Clubs of both bags matched by id, else by slot where each side has one.

    A renamed club is matched by itself.
    """
    left = dict(enumerate(old))
    named = _group_numbers((_name(row), number) for number, row in left.items())
    unmatched = []
    for row in new:
        if twins := named.get(_name(row)):
            yield left.pop(twins.popleft()), row
        else:
            unmatched.append(row)
    in_slot = _group_numbers((_slot(row), number) for number, row in left.items())
    rivals = Counter(map(_slot, unmatched))
    alike = _group_numbers((bare, number) for number, row in left.items() if (bare := _bare(row)))
    for row in unmatched:
        same_slot = in_slot.get(_slot(row)) or deque()
        alone = len(same_slot) == rivals[_slot(row)] == 1
        # clubs without an id are given one when another comes into their slot: the first stays the first
        if alone or (same_slot and not (left[same_slot[0]].get("id") and row.get("id"))):
            yield left.pop(same_slot.popleft()), row
        elif len(renamed := [each for each in alike.get(_bare(row), ()) if _is_free(left, each, rivals)]) == 1:
            yield left.pop(renamed[0]), row
        else:
            yield None, row
    for row in left.values():
        yield row, None


def _is_free(left: Mapping[int, Table], number: int, rivals: Container[str]) -> bool:
    """Whether an earlier club has no counterpart, and nothing new took its slot."""
    return number in left and _slot(left[number]) not in rivals


def _name(row: Table) -> tuple[str, str]:
    return _slot(row), repr(row.get("id"))


def _group_numbers(pairs: Iterable[tuple[Hashable, int]]) -> dict[Hashable, deque[int]]:
    out: dict[Hashable, deque[int]] = {}
    for key, number in pairs:
        out.setdefault(key, deque()).append(number)
    return out


def _bare(row: Table) -> str:
    """A club's setup alone, to compare; empty where nothing of it is written down."""
    setup = setup_of(row, CLUB_KEYS)
    return repr(sorted(setup.items())) if setup else ""


_ADDED, _MANY = "added, ", 3  # new clubs that are counted, not named, in one line


def _club(old: Table | None, new: Table | None, shared: Container[str]) -> Iterator[Difference]:
    """What differs between two states of a club.

    One of several in a slot is named with its id.
    """
    row = new or old or {}
    name = address(row) if _slot(row) in shared else _slot(row)
    if old is None and new is not None:
        carried = "" if new.get("carried", True) else ", not carried"
        setup = describe_setup(new)
        yield Difference(name, f"{_ADDED}{setup}{'' if 'loft ' in setup else _loft_apart(new)}{carried}")
    elif new is None and old is not None:
        yield Difference(name, f"taken out of the bag, {describe_setup(old)}")
    elif old is not None and new is not None:
        was, now = {"carried": True, **old}, {"carried": True, **new}
        news = describe_changes(was, now, skip=(*_BOOKKEEPING_KEYS, "carried"))
        if was["carried"] != now["carried"]:
            news = "; ".join(filter(None, (news, "now carried" if now["carried"] else "left at hand")))
        text = news or describe_changes(was, now, skip=("id", "evidence"))
        extra = sorted(set(map(str, new.get("evidence", []))) - set(map(str, old.get("evidence", []))))
        if extra:
            text = "; ".join(filter(None, (text, describe_evidence(extra))))
        if text:
            yield Difference(name, text)


def _loft_apart(row: Table) -> str:
    """A new club's loft, where its head does not say one."""
    head = row.get("head")
    of_head = isinstance(head, Mapping) and head.get("loft_deg") is not None
    return "" if of_head or row.get("loft_deg") is None else f", loft {format_value('loft_deg', row['loft_deg'])}"


def setup_differences(old: Table, new: Table, units: DisplayUnits | None = None, brief: bool = False) -> str:
    """What differs between two setups (but in a club's or test's own keys).

    ``brief`` leaves out the data of another part that was not known of the one before it: nothing can be compared.

    >>> gorse, osier = {"shaft": {"model": "Gorse 70"}}, {"shaft": {"model": "Osier 75", "torque_deg": 4.7}}
    >>> setup_differences(gorse, osier, brief=True)
    'shaft Gorse 70 → Osier 75'
    """
    was, now = setup_of(old, CLUB_KEYS), setup_of(new, CLUB_KEYS)
    return describe_changes(was, now, _data_of_other_parts(was, now) if brief else (), units=units)


_MAIN_DATA = ("model", "flex", "loft_deg", "mass_g")


def _data_of_other_parts(old: Table, new: Table) -> list[str]:
    """The keys of what is known of a new part and was not of the old one.

    Its main data are not among them.
    """
    found = compare_tables(old, new)
    parts = tuple(each.key.removesuffix("model") for each in found if each.key.endswith(".model"))
    return [
        each.key
        for each in found
        if each.key.startswith(parts)
        and each.key.rpartition(".")[2] not in _MAIN_DATA
        and each.old is None
        and absent_word(each.key) == NOT_KNOWN
    ]


def session_differences(old: Table, new: Table) -> list[Difference]:
    """Tests added, plans made, shots hit, shots left out, verdicts given."""
    out = []
    rows = ("test", "plan")
    plain = describe_changes(*({key: value for key, value in each.items() if key not in rows} for each in (old, new)))
    if any(old.values()) and plain:
        out.append(Difference("session", plain))
    planned = rows_in(old, "plan")
    out += [Difference("plan", describe_plan(row)) for row in rows_in(new, "plan") if row not in planned]
    out += [
        Difference("plan", f"removed, {describe_plan(row)}") for row in planned if row not in rows_in(new, "plan")
    ]
    before = {str(row.get("id")): row for row in rows_in(old, "test")}
    after = {str(row.get("id")): row for row in rows_in(new, "test")}
    for name in dict.fromkeys([*after, *before]):
        row, was = after.get(name), before.get(name)
        if row is None:
            out.append(Difference(f"test {name}", "removed"))
        elif was is None:
            count = len(rows_in(row, "shots"))
            sentence = f"{row.get('slot')} {row.get('role', 'candidate')}, {describe_setup(row.get('setup', {}))}"
            out.append(Difference(f"test {name}", sentence + (f", {_count(count)}" if count else "")))
            out += [Difference(f"test {name}", text) for text in _test({}, {"verdict": row.get("verdict")})]
        else:
            out += [Difference(f"test {name}", text) for text in _test(was, row)]
    return out


def _count(shots: int) -> str:
    return format_count(shots, "shot")


def _test(old: Table, new: Table) -> Iterator[str]:
    was = {str(shot.get("id", place)): shot for place, shot in enumerate(rows_in(old, "shots"))}
    now = {str(shot.get("id", place)): shot for place, shot in enumerate(rows_in(new, "shots"))}
    if added := len(now.keys() - was.keys()):
        yield f"{_count(added)} added, {len(now)} in all"
    if removed := len(was.keys() - now.keys()):
        yield f"{_count(removed)} removed"
    for number, name in enumerate(now, 1):
        if name in was and (text := _shot(was[name], now[name])):
            yield f"shot {number}: {text}"
    setup = describe_changes(old.get("setup", {}), new.get("setup", {}))
    if setup:
        yield setup
    verdict = new.get("verdict") or {}
    if verdict and verdict != old.get("verdict"):
        yield f"{verdict.get('decision')}: {format_value('reason', verdict.get('reason'))}"
    if new.get("guess") and new.get("guess") != old.get("guess"):
        yield f"guess: {_bands(new['guess'])}"
    if (before := _test_criteria(old)) != (after := _test_criteria(new)):
        yield f"criteria {after}" if before == NONE else f"criteria {before} → {after}"
    yield from _sources(old, new)
    skip = {"shots", "setup", "verdict", "predicted", "guess", "criteria", "sources"}
    rest = describe_changes(
        *({key: value for key, value in each.items() if key in TEST_KEYS - skip} for each in (old, new))
    )
    if rest:
        yield rest


def _shot(old: Table, new: Table) -> str:
    """What differs of a shot; why it was left out, or that it counts again."""
    text = describe_changes(old, new, skip=("excluded",))
    before, after = old.get("excluded"), new.get("excluded")
    left_out = "" if before == after else f"left out, {format_value('excluded', after)}" if after else "counted again"
    return "; ".join(filter(None, (text, left_out)))


def _sources(old: Table, new: Table) -> Iterator[str]:
    """The files that shots came from, by the names that they came with."""
    before = rows_in(old, "sources")
    for each in rows_in(new, "sources"):
        if each not in before:
            group = f", {each['group']}" if each.get("group") else ""
            yield f"from the file {each.get('name') or each.get('file')}{group}"


def _test_criteria(test: Table) -> str:
    """The criteria of a test in words.

    Those that a hand wrote otherwise are named as such.
    """
    from fitlog.evidence.criteria.criterion import describe_criteria

    return describe_criteria(rows_in(test, "criteria"))


def _bands(predicted: Any) -> str:
    """The bands of a guess in words, but for those that a hand wrote otherwise."""
    rows = rows_in(predicted, "rows") if isinstance(predicted, Mapping) else []
    known = [row for row in rows if all(isinstance(row.get(end), int | float) for end in ("low", "high"))]
    return ", ".join(format_band(str(row.get("metric")), row["low"], row["high"]) for row in known) or "noted"


def table_differences(old: Table, new: Table) -> list[Difference]:
    """Differences key by key, for plain tables: players, parts, importers, workspace."""
    plain = [{key: value for key, value in flatten_rows(each) if not _is_rows(value)} for each in (old, new)]
    out = [Difference("", format_change(change)) for change in compare_tables(*plain)]
    for key in dict.fromkeys([*old, *new]):
        if key not in NAME_KEYS and (_is_rows(old.get(key)) or _is_rows(new.get(key))):
            out += [Difference("", text) for text in _rows(key, old.get(key) or [], new.get(key) or [])]
    return out


def _rows(key: str, old: Any, new: Any) -> Iterator[str]:
    """What differs between two lists of rows without names."""
    if key == "criterion":
        before, after = [_criteria(each) for each in (old, new)]
        yield from (f"criterion added: {text}" for text in after if text not in before)
        yield from (f"criterion removed: {text}" for text in before if text not in after)
    elif old != new and key == "weights":
        words = format_weights(new) or NONE
        yield f"weights {format_weights(old)} → {words}" if old else f"weights {words}"
    elif old != new:
        yield f"{format_label(key)} {f'{len(old)} → {len(new)}' if len(old) != len(new) else 'changed'}"


def _criteria(rows: Any) -> list[str]:
    """Default criteria in words, each with the clubs that it is for.

    One that a hand wrote wrongly stands as it is.
    """
    from fitlog.evidence.criteria.criterion import criterion

    out = []
    for row in rows_in({"criterion": rows}, "criterion"):
        try:
            text = str(criterion(row))
        except FitlogError:
            text = str(row)
        clubs = row.get("slot") or row.get("kind")
        out.append(f"{clubs}: {text}" if clubs else text)
    return out


def search_differences(old: Table, new: Table) -> list[Difference]:
    """What a search for the change to blame looks among, and how it ended.

    They say too what it is to regain.
    """
    if old and new:
        ended = ("ended", "result", "reason")
        before, after = ({key: value for key, value in each.items() if key not in ended} for each in (old, new))
        out = table_differences(before, after)
    else:
        out = [Difference("", text) for text in _describe_search_start(new or old)]
    if new.get("result") and new.get("result") != old.get("result"):
        out.append(Difference("", f"ended on {new.get('ended')}: {new['result']}"))
    return out if new else [Difference("", f"removed, {'; '.join(map(str, out))}")]


def _describe_search_start(search: Table) -> Iterator[str]:
    then, now, regain = (
        value if isinstance(value, Mapping) else {} for value in map(search.get, ("then", "now", "regain"))
    )
    yield f"which change of the {search.get('slot')} did it, since {search.get('good')}"
    yield f"then → now: {describe_changes(then, now) or 'no change'}"
    if isinstance(by := regain.get("by"), int | float):
        yield f"to regain: {describe_amount(str(regain.get('metric')), by)}"


def player_differences(old: Table, new: Table) -> list[Difference]:
    """Key by key; of private notes only that they changed."""
    bare = ({key: value for key, value in each.items() if key != "notes"} for each in (old, new))
    noted = [Difference("", "private notes changed")] if old and old.get("notes") != new.get("notes") else []
    return [*table_differences(*bare), *noted]


def _is_rows(value: Any) -> bool:
    return isinstance(value, list) and any(isinstance(each, Mapping) for each in value)


def file_differences(kind: str, old: Table, new: Table) -> list[Difference]:
    """What changed in a file of this kind.

    The kinds are bag, session, player, part, venue, importer, search and workspace.
    """
    if kind == "bag":
        return bag_differences(old, new)
    if kind == "session":
        return session_differences(old, new)
    if kind == "search":
        return search_differences(old, new)
    return player_differences(old, new) if kind == "player" else table_differences(old, new)


def summary(differences_: Sequence[Difference]) -> str:
    """All of it in one line, for a commit's subject; many new clubs as their number.

    >>> summary([Difference(slot, "added, Elm 7") for slot in "abc"]), summary([Difference("7i", "loft")])
    ('3 clubs added', '7i: loft')
    """
    others = [str(each) for each in differences_ if not each.text.startswith(_ADDED)]
    added = len(differences_) - len(others)
    if added < _MANY:
        return "; ".join(map(str, differences_))
    return "; ".join([f"{format_count(added, 'club')} added", *others])
