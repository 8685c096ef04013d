"""The ladder of a bag: carries where they are known, lofts where they are not."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from fitlog.coherence.checks.carries import Carry, Step, describe_air, describe_reference, describe_tests
from fitlog.coherence.checks.evenness import CLOSE_DEG, WIDE_DEG
from fitlog.records.naming.refs import ClubRef
from fitlog.records.naming.slots import IRON, PUTTER, WEDGE
from fitlog.views.bag.overview import ClubView

GAP, OVERLAP, CLOSE = "gap", "overlap", "close"
_LEAST = 2  # clubs with a carry from which the ladder stands on carries


class Rung(NamedTuple):
    """One club of the ladder; degrees and yards.

    ``step`` is to the next shorter club carried, in a ladder of lofts to the next stronger one; ``kind`` is a gap, an
    overlap, lofts too close, or empty. A carry is in the reference air where it is known there.
    """

    club: str
    loft_deg: float | None
    is_carried: bool
    carry_yd: float | None = None
    is_stale: bool = False
    step: float | None = None
    kind: str = ""


class BagLadder(NamedTuple):
    """The clubs but the putter, longest first.

    ``about`` says when and with what ball the carries were tested.
    """

    rungs: tuple[Rung, ...] = ()
    by_carry: bool = False
    about: str = ""


def build_ladder(clubs: Iterable[ClubView], carries: Sequence[Carry], steps: Sequence[Step]) -> BagLadder:
    """The ladder of a bag's clubs from tested carries and the steps between them."""
    views = [each for each in clubs if each.club.of_kind != PUTTER]
    known = {each.slot: each for each in carries}
    tested = [known[each.club.address] for each in views if each.club.carried and each.club.address in known]
    if len(tested) < _LEAST:
        return BagLadder(_loft_rungs(views))
    about = "; ".join(filter(None, (describe_tests(tested), _describe_air(tested))))
    return BagLadder(_carry_rungs(views, known, {each.longer: each for each in steps}), True, about)


def _describe_air(carries: Sequence[Carry]) -> str:
    if all(each.ratio is not None for each in carries):
        return f"carries {describe_reference(carries)}"
    return describe_air(carries) or "carries as measured"


def _carry_rungs(
    views: Sequence[ClubView], carries: Mapping[str, Carry], steps: Mapping[str, Step]
) -> tuple[Rung, ...]:
    tested, rest = [], []
    for each in views:
        address = each.club.address
        if (carry := carries.get(address)) is None:
            rest.append(Rung(address, each.loft_deg, each.club.carried))
            continue
        step = steps.get(address) if each.club.carried else None
        tested.append(
            Rung(
                address,
                each.loft_deg,
                each.club.carried,
                carry.reference_yd,
                carry.stale,
                step.yd if step else None,
                step.kind if step else "",
            )
        )
    out = sorted(tested, key=lambda rung: -(rung.carry_yd or 0.0))
    for rung in rest:
        out.insert(_place_by_loft(out, rung), rung)
    return tuple(out)


def _place_by_loft(rungs: Sequence[Rung], one: Rung) -> int:
    """Before the first club with more loft; at the end where there is none."""
    loft = one.loft_deg
    places = (n for n, each in enumerate(rungs) if loft is not None and (each.loft_deg or 0.0) > loft)
    return next(places, len(rungs))


def _loft_rungs(views: Sequence[ClubView]) -> tuple[Rung, ...]:
    known = sorted((each for each in views if each.loft_deg is not None), key=lambda each: each.loft_deg or 0.0)
    steps = {}
    for before, now in pairwise(each for each in known if each.club.carried):
        step = (now.loft_deg or 0.0) - (before.loft_deg or 0.0)
        steps[now.club.address] = (step, _loft_kind(before, now, step))
    rungs = []
    for each in known:
        step_of, kind = steps.get(each.club.address, (None, ""))
        rungs.append(Rung(each.club.address, each.loft_deg, each.club.carried, step=step_of, kind=kind))
    return tuple(rungs)


def _loft_kind(before: ClubView, now: ClubView, step: float) -> str:
    """How a step of loft is marked: under 1°, or over 8° among irons and wedges.

    The step is as ``coherence.checks.evenness`` finds it.
    """
    if ClubRef.parse(before.club.slot).slot == ClubRef.parse(now.club.slot).slot:
        return ""
    if step < CLOSE_DEG:
        return CLOSE
    wide = step > WIDE_DEG and {before.club.of_kind, now.club.of_kind} <= {IRON, WEDGE}
    return GAP if wide else ""
