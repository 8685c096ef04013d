"""Questions across all players, answered by the index alone."""

import re
from collections import Counter
from collections.abc import Sequence
from typing import Any, NamedTuple

from fitlog.coherence.checks.stale import describe_ball_change
from fitlog.index.conditions import Condition, parse_conditions
from fitlog.index.rows import Value
from fitlog.index.schema import CLUB, TEST
from fitlog.index.store import Index
from fitlog.records.models.bag import Ball
from fitlog.records.models.session import MEASURES

_COMPONENTS = ("head", "shaft", "grip")
_MEANS = ", ".join(f"e.mean_{key}" for key in MEASURES)
_COLUMNS = (
    "e.what, e.player, coalesce(p.name, e.player), e.slot, e.kind, e.ref, e.day, e.role, e.ball, "
    f"coalesce(s.text, ''), coalesce(s.head, ''), coalesce(s.shaft, ''), "
    f"e.decision, e.reason, e.notes, e.shots, e.left_out, {_MEANS}"
)
_FROM = "FROM entry e LEFT JOIN setup s ON s.id = e.setup LEFT JOIN player p ON p.player = e.player"

_NEWEST = "e.day DESC, e.clock DESC, e.what DESC, e.player DESC, e.ref DESC"


class Hit(NamedTuple):
    """One thing found: a test, a club, a change with its reason, or a note.

    A note may be on a session, player or part.

    ``ref`` is its address: SESSION#TEST, slot#id, a commit, a session, a player, shelf/part. ``role`` is a test's
    role, a club's standing or a change's action. ``means`` are those of the shots that count, by quantity.
    """

    what: str
    player: str
    name: str
    slot: str
    kind: str
    ref: str
    day: str
    role: str
    ball: str
    setup: str
    head: str
    shaft: str
    decision: str
    reason: str
    notes: str
    shots: int | None
    left_out: int | None
    means: dict[str, float]


class SearchFilters(NamedTuple):
    """What is looked for; what is empty does not count.

    ``swing`` is a test's swing, ``full`` for a full one.
    """

    words: Sequence[str] = ()
    part: str = ""
    kind: str = ""
    verdict: str = ""
    player: str = ""
    slot: str = ""
    since: str = ""
    until: str = ""
    where: Sequence[str] = ()
    what: str = ""
    role: str = ""
    limit: int = 0
    swing: str = ""


class _Clauses:
    def __init__(self) -> None:
        self.sql: list[str] = []
        self.values: list[Value] = []

    def add(self, sql: str, *values: Value) -> None:
        self.sql.append(sql)
        self.values += values


def search(index: Index, filters: SearchFilters) -> list[Hit]:
    """What fits all that is wanted, newest first.

    Raises UsageError for a comparison that is none.
    """
    clauses = _Clauses()
    conditions = _conditions(index, filters.where)
    for text, sql in (
        (filters.player, "e.player = ?"),
        (filters.kind, "e.kind = ?"),
        (filters.verdict, "e.decision = ?"),
        (filters.role, "e.role = ?"),
        (filters.what, "e.what = ?"),
        (filters.swing, "coalesce(nullif(e.swing, ''), 'full') = ?"),
        (filters.since, "e.day >= ?"),
        (filters.until, "e.day <= ?"),
        (filters.slot, "instr(',' || e.slot || ',', ',' || ? || ',')"),
    ):
        if text:
            clauses.add(sql, text)
    if filters.until:
        clauses.add("e.day != ''")
    if conditions or filters.part:
        clauses.add("e.what IN (?, ?)", TEST, CLUB)
    if filters.part:
        clauses.add("e.setup IN (SELECT id FROM setup WHERE instr(models, ?))", filters.part.strip().casefold())
    for condition in conditions:
        sql, values = condition.sql()
        clauses.add(sql, *values)
    _words(index, filters.words, clauses)
    where = f"WHERE {' AND '.join(clauses.sql)}" if clauses.sql else ""
    limit = f"LIMIT {int(filters.limit)}" if filters.limit else ""
    sql = f"SELECT {_COLUMNS} {_FROM} {where} ORDER BY {_NEWEST} {limit}"
    return [_make_hit(row) for row in index.db.execute(sql, clauses.values)]


def _conditions(index: Index, where: Sequence[str]) -> list[Condition]:
    if not where:
        return []
    keys = (
        "WITH RECURSIVE k(key) AS (SELECT min(key) FROM value UNION ALL "
        "SELECT (SELECT min(key) FROM value WHERE key > k.key) FROM k WHERE k.key NOT NULL) SELECT key FROM k"
    )
    return parse_conditions(where, [key for (key,) in index.db.execute(keys) if key])


def _words(index: Index, words: Sequence[str], clauses: _Clauses) -> None:
    """Each word must begin a word of the entry, or of its player's name."""
    for word in (each for text in words for each in text.split()):
        tokens = re.findall(r"[^\W_]+", word)
        if not tokens:
            continue
        phrase = '"' + " ".join(tokens) + '" *'
        named = [player for player, name in _players(index) if _begins(word, f"{player} {name}")]
        sql = "e.id IN (SELECT rowid FROM words WHERE words MATCH ?)"
        if named:
            sql = f"({sql} OR e.player IN ({', '.join('?' * len(named))}))"
        clauses.add(sql, phrase, *named)


def _players(index: Index) -> list[tuple[str, str]]:
    return index.db.execute("SELECT player, name FROM player").fetchall()


def _begins(word: str, text: str) -> bool:
    return any(each.startswith(word.casefold()) for each in re.split(r"[\s-]+", text.casefold()))


def _make_hit(row: Sequence[Any]) -> Hit:
    means = {key: value for key, value in zip(MEASURES, row[17:], strict=True) if value is not None}
    return Hit._make((*row[:17], means))


class PartRecord(NamedTuple):
    """A head, shaft or grip over all players: tries, decisions, and why not."""

    component: str
    model: str
    tried: int
    kept: int
    rejected: int
    retested: int
    players: int
    reasons: tuple[tuple[str, int], ...]


def part_records(index: Index, part: str = "", player: str = "", kind: str = "") -> list[PartRecord]:
    """Each model tried as a candidate, its verdicts and why it was rejected.

    ``part`` names those wanted by any piece of the name; the most rejected come first.
    """
    wanted = part.casefold()
    named = index.db.execute("SELECT id, head, shaft, grip FROM setup WHERE instr(models, ?)", (wanted,))
    setups = {number: models for number, *models in named}
    tried: dict[int, list[tuple[str, str, str]]] = {}
    sql = (
        "SELECT setup, decision, reason, player FROM entry INDEXED BY entry_tried "
        "WHERE what = 'test' AND role = 'candidate' AND (? = '' OR player = ?) AND (? = '' OR kind = ?)"
    )
    for setup, decision, reason, who in index.db.execute(sql, (player, player, kind, kind)):
        if setup in setups:
            tried.setdefault(setup, []).append((decision, reason, who))
    found: dict[tuple[str, str], list[tuple[str, str, str]]] = {}
    for setup, tests in tried.items():
        for component, model in zip(_COMPONENTS, setups[setup], strict=True):
            if model and wanted in model.casefold():
                found.setdefault((component, model), []).extend(tests)
    out = [_record(component, model, tests) for (component, model), tests in found.items()]
    return sorted(out, key=lambda each: (-each.rejected, _COMPONENTS.index(each.component), each.model))


def _record(component: str, model: str, tests: list[tuple[str, str, str]]) -> PartRecord:
    decided = Counter(decision for decision, _, _ in tests)
    reasons = Counter(reason for decision, reason, _ in tests if decision == "reject")
    return PartRecord(
        component,
        model,
        len(tests),
        decided["keep"],
        decided["reject"],
        decided["retest"],
        len({player for _, _, player in tests}),
        tuple(sorted(reasons.items(), key=lambda each: (-each[1], each[0]))),
    )


class StaleClub(NamedTuple):
    """A club whose tests were all hit with another ball; ``tests`` say what changed."""

    player: str
    name: str
    club: str
    tests: tuple[tuple[str, str], ...]


def stale_after_ball(index: Index, player: str = "") -> list[StaleClub]:
    """The carried clubs whose evidence a change of ball made stale.

    A club that rests on one test hit with today's ball is not among them; what is not known of a ball counts as
    unchanged.
    """
    sql = (
        "SELECT v.player, coalesce(p.name, v.player), v.club, v.ref, "
        "t.part, t.model, t.year, b.part, b.model, b.year "
        "FROM evidence v CROSS JOIN ball b ON b.player = v.player AND b.session = '' "
        "CROSS JOIN entry e INDEXED BY entry_ref ON e.ref = v.ref AND e.player = v.player AND e.what = 'test' "
        "CROSS JOIN ball t ON t.player = v.player AND t.session = substr(v.ref, 1, instr(v.ref, '#') - 1) "
        "LEFT JOIN player p ON p.player = v.player WHERE ? = '' OR v.player = ? ORDER BY v.player, v.rowid"
    )
    clubs: dict[tuple[str, str, str], list[tuple[str, str]]] = {}
    for who, name, club, ref, *balls in index.db.execute(sql, (player, player)):
        change = describe_ball_change(Ball(*balls[:3]), Ball(*balls[3:]))
        clubs.setdefault((who, name, club), []).append((ref, change))
    return [StaleClub(*club, tuple(tests)) for club, tests in clubs.items() if all(change for _, change in tests)]


class ScoredBand(NamedTuple):
    """One band and what came of it; ``head`` and ``shaft`` are the candidate's."""

    player: str
    ref: str
    who: str
    kinds: str
    metric: str
    seen: float
    low: float
    high: float
    z: float
    head: str
    shaft: str

    @property
    def size(self) -> float:
        """How far off it was, in half widths of its band: up to 1 it held."""
        half = (self.high - self.low) / 2
        off = abs(self.seen - (self.low + self.high) / 2)
        return off / half if half else float("inf")


def outcomes(index: Index, player: str = "") -> list[ScoredBand]:
    """Every band written down before a test, and its outcome, the oldest first."""
    rows = index.db.execute(
        "SELECT DISTINCT o.player, o.ref, o.who, o.kinds, o.metric, o.seen, o.low, o.high, o.z, "
        "coalesce(s.head, ''), coalesce(s.shaft, '') FROM outcome o "
        "LEFT JOIN entry e ON e.file = o.file AND e.ref = o.ref AND e.what = 'test' "
        "LEFT JOIN setup s ON s.id = e.setup WHERE ? IN ('', o.player) ORDER BY o.ref, o.metric",
        (player,),
    )
    return [ScoredBand(*row) for row in rows]


def deviations(index: Index) -> dict[str, list[float]]:
    """How far off each quantity was, in deviations of its band without a factor."""
    out: dict[str, list[float]] = {}
    for metric, z in index.db.execute("SELECT metric, z FROM outcome WHERE who = 'predicted'"):
        out.setdefault(metric, []).append(z)
    return out


def candidates_with(
    index: Index, part: str = "", key: str = "", kind: str = "", slot: str = ""
) -> list[tuple[str, str]]:
    """Player and address of each candidate with a part or key, the oldest first."""
    sql = (
        "SELECT e.player, e.ref FROM entry e JOIN setup s ON s.id = e.setup "
        "WHERE e.what = 'test' AND e.role = 'candidate' AND (? = '' OR instr(s.models, ?)) "
        "AND (? = '' OR EXISTS (SELECT 1 FROM value v WHERE v.key = ? AND v.setup = e.setup)) "
        "AND (? = '' OR e.kind = ?) AND (? = '' OR e.slot = ?) ORDER BY e.ref"
    )
    wanted = part.casefold()
    return index.db.execute(sql, (wanted, wanted, key, key, kind, kind, slot, slot)).fetchall()
