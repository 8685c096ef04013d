"""What a test must show: a quantity, one kind of limit, and the words for both."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import NamedTuple

from fitlog.evidence.shots.quantities import is_sided, number, quantity
from fitlog.evidence.shots.terms import side
from fitlog.evidence.shots.wording import IN_FILES
from fitlog.records.errors import Refusal
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.units import with_unit

SHARES = ("shots_at_least", "shots_at_most", "shots_within")  # limits on every shot, kept by a share of them
KINDS = (
    "at_least", "at_most", "within", "spread_at_most", "gain_at_least", "gain_at_most", "same_within", *SHARES,
)  # fmt: skip


class Criterion(NamedTuple):
    """What a test must show: a quantity, the kind of limit, and the limit.

    The limit is in the quantity's unit.

    The middle shot is held to ``at_least``, ``at_most`` and ``within``; the middle of all pairings with the
    reference to the gains; with ``shots_…`` a ``share`` of the shots must keep the limit.
    """

    metric: str
    kind: str
    limit: float
    share: float = 0.0

    def __str__(self) -> str:
        return self.format(IN_FILES)

    def format(self, units: DisplayUnits) -> str:
        """The criterion in the units shown.

        >>> from fitlog.records.models.settings import UnitChoices
        >>> Criterion("carry_yd", "at_least", 230).format(DisplayUnits(UnitChoices("m")))
        'carry at least 210.3 m'
        """
        of = quantity(self.metric)
        limit = self._size(self.limit, units)
        return {
            "at_least": f"{of.label} at least {limit}",
            "at_most": f"{of.label} at most {limit}",
            "within": f"{of.label} of the middle shot within {limit} of {self._zero()}",
            "spread_at_most": f"spread of {of.label} at most {limit}",
            "gain_at_least": f"{of.label} {self._gain('at least', 'at most', units)} the reference",
            "gain_at_most": f"{of.label} {self._gain('at most', 'at least', units)} the reference",
            "same_within": f"{of.label} within {limit} of the reference",
            "shots_at_least": f"no more than {few(1 - self.share)} {self._beyond(False, units)}",
            "shots_at_most": f"no more than {few(1 - self.share)} {self._beyond(True, units)}",
            "shots_within": f"at least {few(self.share)} with {of.label} within {limit} of {self._zero()}",
        }[self.kind]

    def describe_need(self, units: DisplayUnits) -> str:
        """The limit alone, to follow what a middle shot did; empty for spread and share.

        >>> Criterion("descent_deg", "gain_at_least", 1.5).describe_need(IN_FILES)
        'at least 1.5° steeper'
        >>> Criterion("carry_yd", "gain_at_least", -3).describe_need(IN_FILES)
        'at most 3 yd shorter'
        """
        of, limit = quantity(self.metric), self._size(abs(self.limit), units)
        way, ends = (of.more if self.limit >= 0 else of.less), ("at least", "at most")
        least, most = ends if self.limit >= 0 else ends[::-1]
        return {
            "at_least": f"at least {self._size(self.limit, units)}",
            "at_most": f"at most {self._size(self.limit, units)}",
            "within": f"within {limit} of {self._zero()}",
            "gain_at_least": f"{least} {limit} {way}",
            "gain_at_most": f"{most} {limit} {way}",
            "same_within": f"within {limit} of it",
        }.get(self.kind, "")

    def _zero(self) -> str:
        return "the target line" if is_sided(self.metric) else "zero"

    def _beyond(self, above: bool, units: DisplayUnits) -> str:
        """The shots that break a limit on every shot."""
        if not is_sided(self.metric):
            way = "above" if above else "below"
            return f"with {quantity(self.metric).label} {way} {self._size(self.limit, units)}"
        at = self._size(abs(self.limit), units)
        place = f"{at} {side(self.limit)} of the target line" if self.limit else "the target line"
        return f"with {quantity(self.metric).label} {'right' if above else 'left'} of {place}"

    def _size(self, limit: float, units: DisplayUnits) -> str:
        unit = units.unit(self.metric)
        size = limit if unit == quantity(self.metric).unit else round(units.convert(self.metric, limit), 1)
        return with_unit(f"{size:.10g}", unit)

    def _gain(self, above: str, below: str, units: DisplayUnits) -> str:
        """A gain on the reference; a loss below zero, limited at its other end."""
        size = self._size(abs(self.limit), units)
        ways = ("right of", "left of") if is_sided(self.metric) else ("above", "below")
        return f"{above} {size} {ways[0]}" if self.limit >= 0 else f"{below} {size} {ways[1]}"

    @property
    def against_reference(self) -> bool:
        """Whether the reference's shots are needed."""
        return self.kind in ("gain_at_least", "gain_at_most", "same_within")


def criterion(row: Mapping[str, object]) -> Criterion:
    """A criterion from its mapping: ``metric`` and exactly one kind of limit.

    Other keys are left alone.

    Raises Refusal for an unknown metric, no or several kinds, or a limit that cannot be one.

    >>> str(criterion({"metric": "carry_yd", "at_least": 232}))
    'carry at least 232 yd'
    """
    metric, kinds = row.get("metric"), [kind for kind in KINDS if row.get(kind) is not None]
    if not isinstance(metric, str):
        raise Refusal("this criterion has no metric", where="criterion", do='write one such as metric = "carry_yd"')
    quantity(metric)
    if len(kinds) != 1:
        has = " and ".join(kinds) or "no limit"
        raise Refusal(f"the criterion has {has}", where=f"criterion {metric}", do="give one of " + ", ".join(KINDS))
    where = f"criterion {metric}.{kinds[0]}"
    limit = number(row[kinds[0]], where)
    if limit is None or (kinds[0] in ("within", "spread_at_most", "same_within", "shots_within") and limit <= 0):
        raise Refusal(f"{limit} is not a width above zero", where=where, do="write a width above zero")
    return Criterion(metric, kinds[0], limit, _share(row.get("share"), kinds[0], where))


def describe_criteria(rows: Sequence[Mapping[str, object]], units: DisplayUnits = IN_FILES) -> str:
    """A file's criteria in words; an old version by hand may be anything.

    >>> describe_criteria([{"metric": "carry_yd", "at_least": 232}, {"metric": "lift"}]), describe_criteria([])
    ('carry at least 232 yd, a criterion that cannot be read', 'none')
    """
    words = []
    for row in rows:
        try:
            words.append(criterion(row).format(units))
        except (Refusal, AttributeError):
            words.append("a criterion that cannot be read")
    return ", ".join(words) or "none"


def _share(value: object, kind: str, where: str) -> float:
    """The share that a ``shots_…`` limit needs, and no other limit takes."""
    if kind not in SHARES:
        if value is not None:
            raise Refusal(f"{kind} takes no share", where=where, do="leave share out, or use " + ", ".join(SHARES))
        return 0.0
    share = number(value, f"{where}: share")
    if share is None or not 0 < share < 1:
        raise Refusal("the share of shots is missing", where=where, do="write one such as share = 0.95")
    return share


def few(share: float) -> str:
    """A share of shots as a golfer says it.

    >>> few(0.05), few(0.8), few(1 / 3)
    ('1 shot in 20', '8 shots in 10', '1 shot in 3')
    """
    of = Fraction(share).limit_denominator(50)
    top, bottom = (of.numerator * 2, of.denominator * 2) if of.denominator == 5 else (of.numerator, of.denominator)
    return f"{format_count(top, 'shot')} in {bottom}"
