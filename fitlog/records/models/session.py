"""A session: one visit of one player.

It holds tests, their shots, criteria and verdicts.
"""

from collections.abc import Iterable, Mapping
from datetime import date, time
from typing import Annotated, Any, NamedTuple

from fitlog.records.models.bag import Ball, TunedBall
from fitlog.records.models.plan import Plan
from fitlog.records.models.setup import Setup
from fitlog.records.naming.ids import REF_PATTERN
from fitlog.records.naming.refs import ClubRef, TestRef
from fitlog.records.naming.slots import KINDS, SLOT_FORM, SLOT_PATTERN, kind_of
from fitlog.records.schema.fields import (
    Clock,
    Day,
    Fault,
    Items,
    Number,
    Sub,
    Text,
    kinds_of,
    quote_value,
    read_record,
    table_schema,
    tables,
)  # fmt: skip

KEEP, REJECT, RETEST = "keep", "reject", "retest"
DECISIONS = (KEEP, REJECT, RETEST)
REFERENCE, CANDIDATE = "reference", "candidate"
FULL = "full"  # a swing; a test that names none was hit with a full one
_ID = Text("id", pattern=r"[a-z0-9]{3,}", form="three small letters such as q7k")


class Shot(NamedTuple):
    """One ball hit.

    Right of target is positive for every player; toe and high on the face are positive.
    """

    id: Annotated[str, _ID] = ""
    at: Annotated[time | None, Clock("time")] = None
    ball_speed_mph: Annotated[float | None, Number("ball speed", 1, 260, "150.1")] = None
    head_speed_mph: Annotated[float | None, Number("head speed", 1, 180, "104.0")] = None
    launch_deg: Annotated[float | None, Number("launch angle", -20, 80, "12.7")] = None
    direction_deg: Annotated[float | None, Number("start line", -60, 60, "-1.2")] = None
    spin_rpm: Annotated[float | None, Number("spin", 0, 20000, "2700")] = None
    spin_axis_deg: Annotated[float | None, Number("spin axis", -90, 90, "4.0")] = None
    carry_yd: Annotated[float | None, Number("carry", 0, 450, "232.5")] = None
    total_yd: Annotated[float | None, Number("total", 0, 550, "251.0")] = None
    offline_yd: Annotated[float | None, Number("offline", -200, 200, "-3.5")] = None
    peak_height_yd: Annotated[float | None, Number("peak height", 0, 100, "31.0")] = None
    descent_deg: Annotated[float | None, Number("descent angle", 0, 90, "44.0")] = None
    time_s: Annotated[float | None, Number("flight time", 0, 15, "6.3")] = None
    attack_deg: Annotated[float | None, Number("attack angle", -30, 30, "-1.5")] = None
    path_deg: Annotated[float | None, Number("club path", -45, 45, "1.0")] = None
    face_deg: Annotated[float | None, Number("face to target", -45, 45, "0.5")] = None
    dynamic_loft_deg: Annotated[float | None, Number("dynamic loft", -20, 90, "14.0")] = None
    strike_x_mm: Annotated[float | None, Number("strike heel to toe", -80, 80, "4")] = None
    strike_y_mm: Annotated[float | None, Number("strike low to high", -60, 60, "-3")] = None
    feel: Annotated[str | None, Text("feel")] = None
    excluded: Annotated[str | None, Text("left out because")] = None
    note: Annotated[str | None, Text("note")] = None

    def as_dict(self) -> dict[str, Any]:
        """What was written down of it, by key, as the statistics take it."""
        return {key: value for key, value in zip(self._fields, self, strict=True) if value is not None}


MEASURES = tuple(key for key, kind in kinds_of(Shot).items() if isinstance(kind, Number))


class Criterion(NamedTuple):
    """What a test must show, set before it.

    It is a measured quantity and one limit in that quantity's unit.
    """

    metric: Annotated[str, Text("quantity", options=MEASURES)]
    at_least: Annotated[float | None, Number("at least", -1e5, 1e5, "232")] = None
    at_most: Annotated[float | None, Number("at most", -1e5, 1e5, "2900")] = None
    within: Annotated[float | None, Number("middle shot within", 0, 1e5, "4")] = None
    spread_at_most: Annotated[float | None, Number("spread at most", 0, 1e5, "8")] = None
    gain_at_least: Annotated[float | None, Number("gain on the reference at least", -1e5, 1e5, "5")] = None
    gain_at_most: Annotated[float | None, Number("gain on the reference at most", -1e5, 1e5, "-300")] = None
    same_within: Annotated[float | None, Number("same as the reference within", 0, 1e5, "3")] = None
    shots_at_least: Annotated[float | None, Number("a share of the shots at least", -1e5, 1e5, "-15")] = None
    shots_at_most: Annotated[float | None, Number("a share of the shots at most", -1e5, 1e5, "15")] = None
    shots_within: Annotated[float | None, Number("a share of the shots within", 0, 1e5, "8")] = None
    share: Annotated[float | None, Number("share of the shots", 0.01, 0.99, "0.95")] = None
    slot: Annotated[str | None, Text("slot", pattern=SLOT_PATTERN, form=SLOT_FORM)] = None
    kind: Annotated[str | None, Text("kind of club", options=KINDS)] = None


SHARE_LIMITS = ("shots_at_least", "shots_at_most", "shots_within")
LIMITS = (
    "at_least", "at_most", "within", "spread_at_most", "gain_at_least", "gain_at_most", "same_within", *SHARE_LIMITS,
)  # fmt: skip
CRITERION_KEYS = ("metric", *LIMITS, "share")


def check_criterion(row: Mapping[str, Any], path: tuple[str | int, ...], faults: list[Fault]) -> None:
    """A criterion has exactly one limit."""
    given = [key for key in LIMITS if key in row]
    if len(given) != 1:
        what = "this criterion has no limit" if not given else f"this criterion has two limits, {' and '.join(given)}"
        faults.append(Fault(path, what, f"give one of {', '.join(LIMITS)}"))
    elif (given[0] in SHARE_LIMITS) != ("share" in row):
        what = f"{given[0]} takes no share" if "share" in row else f"{given[0]} needs a share of the shots"
        faults.append(Fault(path, what, "write share = 0.95 beside shots_at_least, shots_at_most or shots_within"))


class Verdict(NamedTuple):
    """keep, reject or retest, always with a reason.

    ``numbers`` is what the evidence was at that moment.
    """

    decision: Annotated[str, Text("verdict", options=DECISIONS)]
    reason: Annotated[str, Text("reason")]
    on: Annotated[date | None, Day("decided on")] = None
    by: Annotated[str | None, Text("decided by")] = None
    method: Annotated[str | None, Text("method")] = None


class Source(NamedTuple):
    """The file that shots were imported from, kept in sources/ by its content hash."""

    file: Annotated[str | None, Text("file")] = None
    name: Annotated[str | None, Text("name it came with")] = None
    importer: Annotated[str | None, Text("importer")] = None
    group: Annotated[str | None, Text("setup in the file")] = None


class BandRow(NamedTuple):
    """What one quantity should do against the reference.

    The change, test minus reference, and its 80 % band.

    A prediction says too what it rests on: the reference's middle shot, the spread and the number of its shots, and
    ``factor``, by how much the workspace's record has widened or narrowed the band.
    """

    metric: Annotated[str, Text("quantity", options=MEASURES)]
    low: Annotated[float, Number("band from", -1e5, 1e5, "-2")]
    high: Annotated[float, Number("band to", -1e5, 1e5, "5")]
    change: Annotated[float | None, Number("change", -1e5, 1e5, "1.5")] = None
    base: Annotated[float | None, Number("the reference's middle shot", -1e5, 1e5, "195")] = None
    spread: Annotated[float | None, Number("spread of a shot", 0, 1e5, "4")] = None
    shots: Annotated[int | None, Number("shots of the reference", 1, 10000, "10", whole=True)] = None
    factor: Annotated[float | None, Number("band widened by", 0.1, 10, "1.2")] = None


class Prediction(NamedTuple):
    """What a test should show, computed and written down before its first shot.

    ``outcomes`` that moved its bands; ``flight_model`` by which it was computed.
    """

    method: Annotated[str, Text("method")]
    made_from: Annotated[
        str | None, Text("from the shots of", pattern=REF_PATTERN, form="a test such as 2026-04-18-q7k#b4t")
    ] = None
    kinds: Annotated[tuple[str, ...], Items("kinds of change", (Text("kind of change"),))] = ()
    outcomes: Annotated[int | None, Number("outcomes so far", 0, 1e6, "40", whole=True)] = None
    flight_model: Annotated[str | None, Text("flight model")] = None
    rows: Annotated[tuple[BandRow, ...], Items("quantities", (Sub("quantity", BandRow),))] = ()


class Guess(NamedTuple):
    """What a person thought that a test would show, noted before its first shot."""

    by: Annotated[str | None, Text("guessed by")] = None
    rows: Annotated[tuple[BandRow, ...], Items("quantities", (Sub("quantity", BandRow),))] = ()


class ClubTest(NamedTuple):
    """One setup hit in one session."""

    id: Annotated[str, _ID]
    slot: Annotated[str, Text("slot", pattern=SLOT_PATTERN, form=SLOT_FORM)]
    role: Annotated[str, Text("role", options=(REFERENCE, CANDIDATE))] = CANDIDATE
    made_from: Annotated[str | None, Text("made from")] = None
    retest_of: Annotated[
        str | None, Text("retest of", pattern=REF_PATTERN, form="a test such as 2026-04-18-q7k#b4t")
    ] = None
    club: Annotated[str | None, Text("the bag's club it competes with")] = None
    planned_shots: Annotated[int | None, Number("shots planned", 1, 200, "12", whole=True)] = None
    search: Annotated[str | None, Text("search for the change to blame")] = None
    reverted: Annotated[tuple[str, ...], Items("changes taken back", (Text("change"),))] = ()
    kind: Annotated[str | None, Text("kind of club", options=KINDS)] = None
    swing: Annotated[str | None, Text("swing")] = None
    criteria: Annotated[tuple[Criterion, ...], Items("criteria", (Sub("criterion", Criterion),))] = ()
    predicted: Annotated[Prediction | None, Sub("prediction", Prediction)] = None
    guess: Annotated[Guess | None, Sub("guess", Guess)] = None
    shots: Annotated[tuple[Shot, ...], Items("shots", (Sub("shot", Shot),))] = ()
    setup: Annotated[Setup, Sub("setup", Setup)] = Setup()
    verdict: Annotated[Verdict | None, Sub("verdict", Verdict)] = None
    sources: Annotated[tuple[Source, ...], Items("sources", (Sub("source", Source),))] = ()
    notes: Annotated[str | None, Text("notes")] = None
    raw: Mapping[str, Any] = {}

    @property
    def of_kind(self) -> str:
        """wood, iron, wedge or putter."""
        return self.kind or kind_of(self.slot)

    @property
    def address(self) -> str:
        """The bag's club that it competes with: the slot, and the club's id if any."""
        return str(ClubRef(self.slot, self.club or ""))

    @property
    def is_full(self) -> bool:
        """Whether its shots are full: no name of a swing, or ``full``."""
        return self.swing_name == FULL

    @property
    def swing_name(self) -> str:
        """The player's own name of the swing."""
        return self.swing or FULL

    @property
    def counted_shots(self) -> tuple[Shot, ...]:
        """The shots that a person has not left out."""
        return tuple(shot for shot in self.shots if not shot.excluded)


class AirRead(NamedTuple):
    """The air and wind of the session."""

    temperature_c: Annotated[float | None, Number("temperature", -40, 60, "21")] = None
    pressure_hpa: Annotated[float | None, Number("pressure", 500, 1100, "1013.25")] = None
    humidity_pct: Annotated[float | None, Number("humidity", 0, 100, "50")] = None
    altitude_m: Annotated[float | None, Number("altitude", -500, 5000, "120")] = None
    wind_mph: Annotated[float | None, Number("wind", 0, 80, "5")] = None
    wind_from_deg: Annotated[float | None, Number("wind from", 0, 360, "0")] = None


class Session(NamedTuple):
    """A session file."""

    date: Annotated[date, Day("date")]
    started: Annotated[time | None, Clock("started")] = None
    place: Annotated[str | None, Text("place")] = None
    venue: Annotated[str | None, Text("venue")] = None
    season: Annotated[str | None, Text("season")] = None
    logged_by: Annotated[str | None, Text("logged by")] = None
    ball: Annotated[Ball, Sub("ball", Ball)] = Ball()
    tuned: Annotated[TunedBall | None, Sub("own ball", TunedBall)] = None
    air: Annotated[AirRead, Sub("air", AirRead)] = AirRead()
    columns: Annotated[tuple[str, ...], Items("columns", (Text("column", options=MEASURES),))] = ()
    notes: Annotated[str | None, Text("notes")] = None
    plan: Annotated[tuple[Plan, ...], Items("plans", (Sub("plan", Plan),))] = ()
    test: Annotated[tuple[ClubTest, ...], Items("tests", (Sub("test", ClubTest),))] = ()

    def plan_of(self, test: ClubTest) -> Plan | None:
        """The plan that a test was set into; None for one without."""
        return next((each for each in self.plan if test.id in each.tests), None)

    def tests_of(self, slot: str) -> tuple[ClubTest, ...]:
        """The tests of one slot, in file order."""
        return tuple(test for test in self.test if test.slot == slot)

    def reference_for(self, test: ClubTest) -> ClubTest | None:
        """The test that this one is compared against.

        It is the last reference of the slot with the same swing.
        """
        alike = [one for one in self.tests_of(test.slot) if one.swing_name == test.swing_name and one.id != test.id]
        found = [one for one in alike if one.role == REFERENCE]
        return found[-1] if found else None


TEST_KEYS = frozenset(kinds_of(ClubTest))


def read_session(table: Mapping[str, Any], faults: list[Fault]) -> Session:
    """A session from its file's table; what is wrong goes to ``faults``."""
    session = read_record(Session, {key: value for key, value in table.items() if key != "test"}, (), faults)
    rows = table.get("test", [])
    if not isinstance(rows, list):
        faults.append(
            Fault(("test",), f"{quote_value(rows)} is not a list of tests", "start each test with [[test]]")
        )
        rows = []
    tests = []
    for number, row in tables(rows, "test", faults):
        path = ("test", number)
        tests.append(read_record(ClubTest, row, path, faults)._replace(raw=row))
        criteria = row.get("criteria", [])
        for place, each in enumerate(criteria if isinstance(criteria, list) else []):
            if isinstance(each, Mapping):
                check_criterion(each, (*path, "criteria", place), faults)
    seen: set[str] = set()
    for number, test in enumerate(tests):
        if test.id and test.id in seen:
            faults.append(Fault(("test", number, "id"), f"two tests have the id '{test.id}'", "give one another id"))
        seen.add(test.id)
    return session._replace(test=tuple(tests))


def session_schema() -> dict[str, Any]:
    """JSON Schema of a session file."""
    return table_schema(Session)


def name_test(test: ClubTest, tests: Iterable[ClubTest]) -> str:
    """What a person calls a test among those of its session.

    It is the role, with its swing where some are partial. A number follows only where another test of the slot is
    called the same.

    >>> one, two = ClubTest("b4t", "3w"), ClubTest("r2x", "3w")
    >>> name_test(one, [one]), name_test(one, [one, two]), name_test(one, [one, two._replace(swing="half")])
    ('candidate', 'candidate 1', 'full candidate')
    """
    of_slot = [each for each in tests if each.slot == test.slot]
    has_partial = not all(each.is_full for each in (test, *of_slot))
    alike = [each.id for each in of_slot if (each.role, each.swing_name) == (test.role, test.swing_name)]
    number = str(alike.index(test.id) + 1) if len(alike) > 1 and test.id in alike else ""
    return " ".join(filter(None, (test.swing_name if has_partial else "", test.role, number)))


def ref(session_id: str, test_id: str) -> str:
    """A test's address: ``2026-04-18-q7k#b4t``."""
    return str(TestRef(session_id, test_id))
