"""What came of predictions and guesses, of one test and over the workspace."""

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

from fitlog.flight.balls.coefficients import describe_model
from fitlog.records.models.session import BandRow, ClubTest
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.saving.desk import Desk
from fitlog.views.verdict.evidence import readings

if TYPE_CHECKING:
    from fitlog.index.queries import ScoredBand
    from fitlog.prediction.bands import Outcome
    from fitlog.prediction.record import BandShare


class Factor(NamedTuple):
    """How much a quantity's band is widened (above 1), by how many outcomes."""

    factor: float
    outcomes: int


class Row(NamedTuple):
    """One quantity predicted or guessed, and what was seen; None while unknown."""

    metric: str
    change: float
    low: float
    high: float
    outcome: "Outcome | None"
    sentence: str


class TestPrediction(NamedTuple):
    """What stood in the file before a test's first shot, beside its shots.

    ``guess`` is the person's own; ``made_from`` the test whose shots the prediction rests on.
    """

    rows: tuple[Row, ...]
    guess: tuple[Row, ...]
    made_from: str
    by: str
    model: str = ""

    @property
    def sentences(self) -> list[str]:
        """Heads and rows, a line each; empty where nothing was predicted or guessed."""
        out = []
        if self.rows:
            by = f", {describe_model(self.model)}" if self.model else ""
            out += [f"written down before the first shot, from {self.made_from}{by}"]
            out += [each.sentence for each in self.rows]
        if self.guess:
            out += [f"guessed{f' by {self.by}' if self.by else ''}: {each.sentence}" for each in self.guess]
        return out


def scored_prediction(test: ClubTest, reference: ClubTest | None, units: DisplayUnits) -> TestPrediction:
    """A test's prediction and guess with the difference that its counted shots show."""
    predicted, guess = test.predicted, test.guess
    return TestPrediction(
        tuple(_score(each, test, reference, units) for each in (predicted.rows if predicted else ())),
        tuple(_score(each, test, reference, units) for each in (guess.rows if guess else ())),
        (predicted.made_from or "") if predicted else "",
        (guess.by or "") if guess else "",
        (predicted.flight_model or "") if predicted else "",
    )


def _score(row: BandRow, test: ClubTest, reference: ClubTest | None, units: DisplayUnits) -> Row:
    from fitlog.prediction.bands import Band, outcome
    from fitlog.prediction.wording import band_sentence

    change = (row.low + row.high) / 2 if row.change is None else row.change
    band = Band(row.metric, change, row.low, row.high, row.base, row.spread, row.shots)
    seen = outcome(band, readings(test, row.metric), readings(reference, row.metric), row.factor or 1.0)
    ends = (seen.low, seen.high) if seen else (row.low, row.high)
    return Row(row.metric, change, *ends, seen, band_sentence(row.metric, change, *ends, seen, units))


def factors(desk: Desk, metrics: Iterable[str]) -> dict[str, Factor]:
    """How the workspace's record moves each quantity's bands.

    It is empty where that cannot be asked in passing.
    """
    if desk.bulk:
        return {}
    from fitlog.index.queries import deviations
    from fitlog.prediction.record import factor
    from fitlog.views.search.finder import query_in_passing

    known = query_in_passing(desk, deviations) or {}
    return {key: Factor(factor(known[key]), len(known[key])) for key in metrics if key in known}


class Share(NamedTuple):
    """How often the bands of one group held.

    A group is a quantity, a kind of change, a player or a part; ``label`` is what a person calls it.
    """

    name: str
    label: str
    held: int
    n: int
    low: float
    high: float


class PredictionRecord(NamedTuple):
    """How good predictions (or a person's guesses) were.

    ``picture`` is how often bands of 50, 80 and 95 % held; the groups say it of the 80 % bands. ``factors`` is how
    much the next bands are widened or narrowed. ``waiting`` bands have no outcome yet only by being absent here.
    """

    who: str
    n: int
    picture: "tuple[BandShare, ...]"
    groups: Mapping[str, tuple[Share, ...]]
    factors: Mapping[str, Factor]


def prediction_record(desk: Desk, player: str = "") -> dict[str, PredictionRecord]:
    """The record of ``rows`` and of ``guess``, of one player or all.

    Raises UsageError for a player that is not there.
    """
    from fitlog.index.queries import deviations, outcomes
    from fitlog.prediction.record import factor
    from fitlog.views.search.finder import query_index
    from fitlog.views.session.blind import hidden_refs

    player = desk.workspace.pick_player(player) if player else ""
    rows = query_index(desk, lambda index: outcomes(index, player))
    hidden = hidden_refs(desk, {(each.player, each.ref) for each in rows})
    rows = [each for each in rows if (each.player, each.ref) not in hidden]
    known = query_index(desk, deviations, fresh=True)
    moved = {key: Factor(factor(zs), len(zs)) for key, zs in known.items()}
    names = {each: desk.workspace.name_of(each) for each in {row.player for row in rows}}
    return {
        who: _record(who, [each for each in rows if each.who == who], moved if who == "predicted" else {}, names)
        for who in ("predicted", "guess")
    }


def _record(
    source: str, rows: "Sequence[ScoredBand]", factors: Mapping[str, Factor], names: Mapping[str, str]
) -> PredictionRecord:
    from fitlog.evidence.shots.quantities import QUANTITIES
    from fitlog.prediction.record import band_coverage

    sizes = [each.size for each in rows]
    groups = {
        "quantity": _shares(
            ((each.metric, each) for each in rows), {key: of.label for key, of in QUANTITIES.items()}
        ),
        "change": _shares((kind, each) for each in rows for kind in each.kinds.split(", ") if kind),
        "player": _shares(((each.player, each) for each in rows), names),
        "part": _shares((part, each) for each in rows for part in (each.head, each.shaft) if part),
    }
    return PredictionRecord(source, len(rows), tuple(band_coverage(sizes)) if sizes else (), groups, factors)


def _shares(
    pairs: "Iterable[tuple[str, ScoredBand]]", labels: Mapping[str, str] = MappingProxyType({})
) -> tuple[Share, ...]:
    from fitlog.prediction.record import band_coverage

    by_name: dict[str, list[float]] = {}
    for name, each in pairs:
        by_name.setdefault(name, []).append(each.size)
    found = [(name, band_coverage(sizes)[1]) for name, sizes in by_name.items()]
    return tuple(Share(name, labels.get(name, name), of.held, of.n, of.low, of.high) for name, of in found)
