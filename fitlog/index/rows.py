"""What a file says, as rows of the index.

A value of the wrong kind is passed over: the index refuses nothing.
"""

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from datetime import date, time
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.index.schema import CLUB, PART, PLAYER, SESSION, TEST, VENUE
from fitlog.records.models.bag import CLUB_KEYS, Ball
from fitlog.records.models.session import FULL, MEASURES, REFERENCE, ref
from fitlog.records.models.setup import setup_of
from fitlog.records.naming.refs import ClubRef
from fitlog.records.naming.slots import kind_of
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.wording.words import describe_changes, describe_setup
from fitlog.toml import load_within_limits

if TYPE_CHECKING:
    from fitlog.prediction.bands import Outcome

Table = Mapping[str, Any]
Value = str | float
_NUMBER = (int, float)  # as a tuple: asked of every value of every shot, int | float would be made anew each time
_COMPONENTS = ("head", "shaft", "grip")
_SHOT_TEXTS = ("feel", "note", "excluded")
BAND_AUTHORS = ("predicted", "guess")  # who may have written a band down: fitlog, a person


class SetupRow(NamedTuple):
    """One setup, known by its content; it stands once for all tests and bags."""

    id: int
    text: str
    models: str
    head: str
    shaft: str
    grip: str
    values: tuple[tuple[str, Value], ...]


class EntryRow(NamedTuple):
    """One thing that can be found."""

    what: str
    player: str = ""
    slot: str = ""
    kind: str = ""
    ref: str = ""
    day: str = ""
    clock: str = ""  # the time of day, then the place in the file: what is newest first
    role: str = ""
    ball: str = ""
    decision: str = ""
    reason: str = ""
    notes: str = ""
    setup: int | None = None
    shots: int | None = None
    left_out: int | None = None
    swing: str = ""  # of a test: a partial swing's name, empty for a full one
    means: tuple[float | None, ...] = (None,) * len(MEASURES)
    models: str = ""


class OutcomeRow(NamedTuple):
    """What came of one band; ``who`` made it, ``z`` as in ``prediction.Outcome``."""

    player: str
    ref: str
    who: str
    kinds: str
    metric: str
    seen: float
    low: float
    high: float
    z: float


class FileRows(NamedTuple):
    """All that one file gives to the index."""

    entries: Sequence[EntryRow] = ()
    setups: Sequence[SetupRow] = ()
    player: tuple[str, str, bool] | None = None
    ball: tuple[str, str, Ball] | None = None  # the player, the session (empty: the bag) and its ball
    evidence: Sequence[tuple[str, str, str]] = ()
    outcomes: Sequence[OutcomeRow] = ()
    broken: bool = False


def rows_of(kind: str, names: Sequence[str], data: bytes) -> FileRows:
    """The rows of a file's bytes; ``kind`` and ``names`` come from its place."""
    table = load_within_limits(data)
    if table is None:
        return FileRows(broken=True)
    return rows_of_table(kind, names, table)


def rows_of_table(kind: str, names: Sequence[str], table: Table) -> FileRows:
    """The rows of a file's table."""
    return _OF_KIND[kind](names, table)


def _player(names: Sequence[str], table: Table) -> FileRows:
    notes = _join(_text(table, "notes"), *_texts(table.get("prefers")))
    name = _text(table, "name") or names[0]
    entry = EntryRow(PLAYER, names[0], ref=names[0], notes=notes)
    return FileRows([entry], player=(names[0], name, table.get("left_out") is True))


def _bag(names: Sequence[str], table: Table) -> FileRows:
    player, ball = names[0], _ball(table)
    entries, setups, evidence = [], [], []
    for row in _rows(table, "club"):
        slot, club_id = _text(row, "slot"), _text(row, "id")
        address = str(ClubRef(slot, club_id))
        setup = _setup(setup_of(row, CLUB_KEYS))
        setups.append(setup)
        entries.append(
            EntryRow(
                CLUB,
                player,
                slot,
                _text(row, "kind") or kind_of(slot),
                address,
                _day(row.get("since")),
                role=_text(row, "standing") or "trial",
                ball=_describe_ball(ball),
                notes=_text(row, "notes"),
                setup=setup.id,
                models=setup.models,
            )
        )
        if row.get("carried", True) is True:
            evidence += [(player, address, each) for each in _texts(row.get("evidence"))]
    return FileRows(entries, setups, ball=(player, "", ball), evidence=evidence)


def _session(names: Sequence[str], table: Table) -> FileRows:
    player, session = names
    day, ball = _day(table.get("date")) or session[:10], _ball(table)
    started = table.get("started")
    clock = started.isoformat("seconds") if isinstance(started, time) else ""
    entries, setups = [], []
    notes = _join(_text(table, "notes"), _text(table, "place"), _text(table, "venue"))
    if notes:
        entries.append(
            EntryRow(SESSION, player, ref=session, day=day, clock=clock, ball=_describe_ball(ball), notes=notes)
        )
    about = EntryRow(TEST, player, day=day, ball=_describe_ball(ball))
    for number, row in enumerate(_rows(table, "test")):
        own = _setup_table(row)
        setup = _setup(own, _describe_change(table, row, own))
        setups.append(setup)
        entries.append(_test(about, session, f"{clock} {number:03d}", row, setup))
    outcomes = list(outcomes_of(player, session, _rows(table, "test")))
    return FileRows(entries, setups, ball=(player, session, ball), outcomes=outcomes)


def _test(about: EntryRow, session: str, clock: str, row: Table, setup: SetupRow) -> EntryRow:
    """A test's entry; ``about`` has what all tests of its session share."""
    slot = _text(row, "slot")
    given = row.get("verdict")
    verdict: Table = given if isinstance(given, Mapping) else {}
    rows = _rows(row, "shots")
    shots = [shot for shot in rows if not shot.get("excluded")]
    return about._replace(
        slot=slot,
        kind=_text(row, "kind") or kind_of(slot),
        ref=ref(session, _text(row, "id")),
        clock=clock,
        role=_text(row, "role") or "candidate",
        decision=_text(verdict, "decision"),
        reason=_text(verdict, "reason"),
        notes=_test_notes(row),
        setup=setup.id,
        shots=len(shots),
        left_out=len(rows) - len(shots),
        swing="" if (swing := _text(row, "swing")) == FULL else swing,
        means=_means(shots),
        models=setup.models,
    )


def outcomes_of(player: str, session: str, tests: Sequence[Table]) -> Iterator[OutcomeRow]:
    """What came of every prediction and guess of a session's tests."""
    for row in tests:
        written = [(who, row[who]) for who in BAND_AUTHORS if isinstance(row.get(who), Mapping)]
        if not written:
            continue
        beside = [
            each for each in tests if each.get("role") == REFERENCE and _slot_and_swing(each) == _slot_and_swing(row)
        ]
        for who, given in written:
            predicted = row.get("predicted")
            kinds = ", ".join(_texts(predicted.get("kinds"))) if isinstance(predicted, Mapping) else ""
            for found in _outcomes(given, row, beside[-1] if beside else {}):
                where = ref(session, _text(row, "id"))
                yield OutcomeRow(player, where, who, kinds, found.metric, *found[1:5])


def _slot_and_swing(row: Table) -> tuple[str, str]:
    return _text(row, "slot"), _text(row, "swing")


def _outcomes(verdict: Table, row: Table, reference: Table) -> "Iterator[Outcome]":
    from fitlog.prediction.bands import Band, outcome

    for each in _rows(verdict, "rows"):
        numbers = {key: value for key, value in each.items() if isinstance(value, _NUMBER)}
        if not {"low", "high"} <= numbers.keys():
            continue
        low, high = numbers["low"], numbers["high"]
        base, spread, shots = (numbers.get(key) for key in ("base", "spread", "shots"))
        metric = _text(each, "metric")
        known = int(shots) if shots else None
        band = Band(metric, numbers.get("change", (low + high) / 2), low, high, base, spread, known)
        sides = (_values(row, metric), _values(reference, metric))
        found = outcome(band, *sides, numbers.get("factor", 1.0))
        if found is not None:
            yield found


def _values(test: Table, key: str) -> list[float]:
    shots = (shot for shot in _rows(test, "shots") if not shot.get("excluded"))
    return [value for shot in shots if isinstance(value := shot.get(key), _NUMBER) and value - value == 0]


def _part_rows(names: Sequence[str], table: Table) -> FileRows:
    shelf, part = names
    model = _text(table, "model")
    models = _join(model, part)
    return FileRows(
        [EntryRow(PART, kind=_text(table, "kind"), ref=f"{shelf}/{part}", notes=_text(table, "notes"), models=models)]
    )


def _venue(names: Sequence[str], table: Table) -> FileRows:
    notes = _join(_text(table, "name"), _text(table, "ground"), _text(table, "notes"), names[0])
    return FileRows([EntryRow(VENUE, ref=names[0], notes=notes)])


_OF_KIND = {"player": _player, "bag": _bag, "session": _session, "part": _part_rows, "venue": _venue}
KINDS = frozenset(_OF_KIND)


def _setup_table(row: Table) -> Table:
    given = row.get("setup")
    return given if isinstance(given, Mapping) else {}


def _describe_change(session: Table, row: Table, setup: Table) -> str:
    """What a candidate has otherwise than its reference, in words; empty for none."""
    if row.get("role") == REFERENCE:
        return ""
    references = [
        each
        for each in _rows(session, "test")
        if each.get("slot") == row.get("slot") and each.get("role") == REFERENCE
    ]
    return describe_changes(_setup_table(references[-1]), setup) if references else ""


_setup_rows: dict[tuple[str, str], SetupRow] = {}
_MOST_MADE = 5000  # a setup stands in many tests; far more of them than this are never at hand at once


def _setup(table: Table, component: str = "") -> SetupRow:
    """A setup's row. ``component``, what differs, stands first."""
    content = repr(table), component
    if content not in _setup_rows:
        if len(_setup_rows) >= _MOST_MADE:
            _setup_rows.clear()
        _setup_rows[content] = _make_setup(table, component)
    return _setup_rows[content]


def _make_setup(table: Table, component: str) -> SetupRow:
    values = sorted((key, plain) for key, value in flatten(table) if (plain := plain_value(value)) is not None)
    weights = [str(each) for each in table.get("weights", [])] if isinstance(table.get("weights"), list) else []
    digest = hashlib.blake2b(
        repr((values, weights, *([component] if component else []))).encode("utf-8", "surrogatepass"), digest_size=8
    ).digest()
    given = {key: value for key, value in values if isinstance(value, str)}
    models = [given[key] for key in given if key.endswith((".model", ".part"))]
    head, shaft, grip = (given.get(f"{each}.model") or given.get(f"{each}.part", "") for each in _COMPONENTS)
    number = int.from_bytes(digest, "big", signed=True)
    joined = "\n".join(dict.fromkeys(models)).casefold()
    text = "; ".join(filter(None, (component, describe_setup(table))))
    return SetupRow(number, text, joined, head, shaft, grip, tuple(values))


def plain_value(value: Any) -> Value | None:
    """A single value as the index compares it; lists are left out.

    Numbers as numbers, all else as text.
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, _NUMBER):
        return float(value) if value - value == 0 else None
    if isinstance(value, str):
        return value
    return value.isoformat() if isinstance(value, date) else None


def _ball(table: Table) -> Ball:
    given = table.get("ball")
    if not isinstance(given, Mapping):
        return Ball()
    year = given.get("year")
    return Ball(_text(given, "part") or None, _text(given, "model") or None, year if isinstance(year, int) else None)


def _describe_ball(ball: Ball) -> str:
    """Model (else part) and year; empty where the ball was not written down."""
    return _join(ball.model or ball.part or "", str(ball.year or ""), by=" ")


def _test_notes(row: Table) -> str:
    setup = row.get("setup")
    shots = _rows(row, "shots")
    of_shots = [text for shot in shots for key in _SHOT_TEXTS if key in shot and (text := _text(shot, key))]
    return _join(
        _text(row, "notes"),
        _text(row, "swing"),
        _text(setup, "notes") if isinstance(setup, Mapping) else "",
        *of_shots,
    )


def _means(shots: Sequence[Table]) -> tuple[float | None, ...]:
    """The mean of each measure, in the order of MEASURES; None where no shot has it."""
    known = set().union(*shots)
    return tuple(_mean([shot[key] for shot in shots if key in shot]) if key in known else None for key in MEASURES)


def _mean(values: Sequence[Any]) -> float | None:
    try:
        if (total := sum(values)) - total == 0:  # numbers alone, and none of them endless
            return float(total / len(values))
    except (TypeError, OverflowError):
        pass
    numbers = [value for value in values if isinstance(value, _NUMBER) and value - value == 0]
    return sum(numbers) / len(numbers) if numbers else None


def _text(table: Table, key: str) -> str:
    value = table.get(key)
    return value if isinstance(value, str) else ""


def _texts(value: Any) -> Iterator[str]:
    return (each for each in value if isinstance(each, str)) if isinstance(value, list) else iter(())


def _rows(table: Table, key: str) -> list[Table]:
    value = table.get(key)
    return [each for each in value if isinstance(each, dict)] if isinstance(value, list) else []


def _day(value: Any) -> str:
    return value.isoformat()[:10] if isinstance(value, date) else ""


def _join(*texts: str, by: str = "\n") -> str:
    return by.join(dict.fromkeys(filter(None, texts)))
