"""Stocked heads for the solver, each with its sleeve and one open port."""

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from fitlog.bench.club import AddedWeight, ClubParts
from fitlog.bench.components.stock import StockHead, StockWeight
from fitlog.records.errors import BrokenFile
from fitlog.records.models.part import Part
from fitlog.records.models.setup import Setup
from fitlog.records.naming.slots import head_kind
from fitlog.saving.desk import Desk
from fitlog.views.bench.parts import as_weight, place_of
from fitlog.views.bench.sheet import Sheet

THIS_HEAD = "this head"
_LOFT_WITHIN_DEG = 2.0  # a head of quite another loft is no candidate for this slot: common practice


class Port(NamedTuple):
    """A head with one port open to choice; what sits in the others stays."""

    head: StockHead
    place: str
    in_it_g: float | None
    other_weights: tuple[AddedWeight, ...]
    sleeve_g: float | None


def shelf(desk: Desk, name: str) -> Iterator[tuple[str, Part]]:
    """The sound parts of a shelf in stock; a part without a count is taken to be."""
    for part in desk.workspace.parts(name):
        try:
            found = desk.workspace.part(name, part)
        except BrokenFile:
            continue
        if found.stock.stock != 0:
            yield part, found


def ports_of(desk: Desk, sheet: Sheet, with_others: bool) -> Iterator[Port]:
    """The head in hand, and with ``with_others`` those of its kind and loft in stock."""
    base, setup = sheet.components.parts, sheet.components.setup
    own = setup.head.part or ""
    if base.head_mass_g is not None:
        own_weights = [weight for weight in base.weights if weight.place == "head"]
        yield _port(THIS_HEAD, base.head_mass_g, base, own_weights, setup)
    for name, part in shelf(desk, "heads") if with_others else ():
        head: Any = part.component
        if head.mass_g is None or not _fits(part, sheet) or (name == own and base.head_mass_g is not None):
            continue
        weights = [
            weight for each in part.stock.weights if (weight := as_weight(each)) and place_of(weight) == "head"
        ]
        like = base._replace(
            head_balance_in=head.balance_in,
            head_cg_height_in=head.cg_height_in,
            head_cg_toe_in=head.cg_toe_in,
            head_bore_to_ground_in=head.bore_to_ground_in,
            head_insertion_in=head.insertion_in,
            lie_deg=head.lie_deg,
            sleeve_mass_g=part.stock.sleeve_mass_g,
        )
        yield _port(name, head.mass_g, like, weights, None)


def _port(name: str, head_g: float, base: ClubParts, weights: Sequence[AddedWeight], setup: Setup | None) -> Port:
    """The head with the weights of all ports but the heaviest in its mass."""
    if setup is not None:  # places as written, not as the arithmetic takes them
        written = [weight for each in setup.weights if (weight := as_weight(each)) and place_of(weight) == "head"]
        weights = written
    open_port = max(weights, key=lambda weight: weight.mass_g, default=None)
    rest = list(weights)
    if open_port is not None:
        rest.remove(open_port)
    head = StockHead(
        name,
        head_g + sum(weight.mass_g for weight in rest),
        base.head_balance_in,
        base.head_bore_to_ground_in,
        base.head_insertion_in,
        base.head_cg_height_in,
        base.head_cg_toe_in,
        base.lie_deg,
    )
    place = open_port.place if open_port else ""
    return Port(head, place, open_port.mass_g if open_port else None, tuple(rest), base.sleeve_mass_g)


def _fits(part: Part, sheet: Sheet) -> bool:
    """Whether a head suits the club's kind, hand and loft, as far as each is known."""
    if part.stock.kind not in (None, sheet.work.kind, sheet.work.slot, head_kind(sheet.work.slot, sheet.work.kind)):
        return False
    if part.stock.hand not in (None, sheet.work.hand):
        return False
    head: Any = part.component
    setup = sheet.components.setup
    loft = setup.head.loft_deg if setup.head.loft_deg is not None else setup.loft_deg
    return loft is None or head.loft_deg is None or abs(head.loft_deg - loft) <= _LOFT_WITHIN_DEG + 1e-9


def options_of(desk: Desk, place: str, ports: Sequence[Port], at_in: float | None) -> tuple[StockWeight, ...]:
    """The weights for a port: those in stock, and those in the heads to choose."""
    if not place:
        return ()
    if at_in is not None:
        return (StockWeight(f"{place} {at_in:g} g", at_in),)
    masses = {port.in_it_g for port in ports if port.place == place and port.in_it_g is not None}
    for _, part in shelf(desk, "heads"):
        found = [weight for each in part.stock.weights if (weight := as_weight(each))]
        masses |= {weight.mass_g for weight in found if weight.place == place}
    return tuple(StockWeight(f"{place} {mass:g} g", mass) for mass in sorted(masses))
