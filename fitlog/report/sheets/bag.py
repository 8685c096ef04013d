"""The bag card: every club's numbers, ladders, make-ups, and remarks.

Each club has its standing too.
"""

from collections.abc import Callable

from fitlog.bench.measures.points import format_points
from fitlog.coherence.checks.carries import describe_tests
from fitlog.coherence.club.known_club import COMPUTED, MEASURED, KnownValue
from fitlog.coherence.findings import NOT_CHECKED, fold_evidence, group
from fitlog.flight.balls.coefficients import describe_model
from fitlog.records.naming.refs import ClubRef
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.units import format_number
from fitlog.records.wording.words import without_ids
from fitlog.report.document import (
    Block,
    Bullets,
    Cell,
    Document,
    Facts,
    Heading,
    Ladder,
    Page,
    Pair,
    Paragraph,
    Rung,
    Table,
    Tone,
)
from fitlog.report.sheets.pocket import last_change, pocket_page
from fitlog.report.sheets.values import Units, club_name, describe_models, display_name, heads_of
from fitlog.views.sheets.bag_card import BagCard, CardClub
from fitlog.views.sheets.verdict_sheet import describe_ball

FOOT = "✓ measured on the bench; no mark: as stated; ≈ computed from the components. The committee decides on rules."


def document(card: BagCard, initials: bool = False) -> Document:
    """The card for the pocket, and behind it the bag in full."""
    units = Units(card.units)
    name = display_name(card.player, initials)
    pages = (pocket_page(card, name, units), _full_page(card, name, units))
    return Document(f"Bag: {name}", pages, FOOT)


def _full_page(card: BagCard, name: str, units: Units) -> Page:
    """Specs, measurements, standing, ladders, make-ups, what to look at."""
    blocks: list[Block] = [_clubs(card, units)]
    lofts, carries = _lofts(card), _carries(card, units)
    left: list[Block] = [Heading("Lofts"), *lofts] if lofts else []
    right: list[Block] = [Heading("Carries, as tested"), *carries] if carries else []
    blocks += [Pair(tuple(left), tuple(right))] if left and right else [*left, *right]
    blocks += [*_makeups(card), *_findings(card)]
    return Page(f"Bag of {name}", _subtitle(card), tuple(blocks))


def _subtitle(card: BagCard) -> str:
    carried = len(card.bag.carried)
    words = [
        f"as at {card.at}" if card.at else "",
        f"season {card.bag.season}" if card.bag.season else "",
        f"ball {describe_ball(card.bag.ball)}" if describe_ball(card.bag.ball) else "",
        f"{card.player.hand}-handed",
        f"{format_count(carried, 'club')} carried",
        last_change(card),
    ]
    return " · ".join(filter(None, words))


def _clubs(card: BagCard, units: Units) -> Table:
    heads = (
        "",
        "Club",
        "Loft",
        "Lie",
        units.column_head("length_in", "Length"),
        "SW",
        units.column_head("carry_yd", "Carry"),
        "Standing",
        "Since",
    )
    rows = tuple(_club(card, each, units) for each in card.clubs)
    return Table(heads, rows, frozenset({2, 3, 4, 5, 6, 8}), stacks=True)


def _club(card: BagCard, each: CardClub, units: Units) -> tuple[Cell, ...]:
    club, known = each.club, each.known_club
    standing = club.standing + ("" if club.carried else ", not carried") + (", evidence stale" if each.stale else "")
    tone: Tone = "quiet" if not club.carried else "warn" if each.stale else ""
    yd = card.carry_yd.get(club.address)
    carry = Cell("–" if yd is None else units.format_number("carry_yd", yd))
    return (
        Cell(club.slot),
        Cell(describe_models(club, units)),
        _value(known.loft_deg, "°"),
        _value(known.lie_deg, "°"),
        _value(known.length_in, "", units.exact),
        _points(known.points),
        carry,
        Cell(standing, tone),
        Cell(club.since.isoformat() if club.since else "–", "quiet"),
    )


def _value(value: KnownValue | None, unit: str, length: Callable[[str, float], str] | None = None) -> Cell:
    if value is None:
        return Cell("–")
    number = length("length_in", value.value) if length else format_number(value.value)
    return Cell(number + unit + (" ✓" if value.source == MEASURED else ""))


def _points(value: KnownValue | None) -> Cell:
    if value is None:
        return Cell("–")
    read = " ✓" if value.source == MEASURED else ""
    return Cell(format_points(value.value) + read, computed=value.source == COMPUTED)


def _lofts(card: BagCard) -> list[Block]:
    rungs: list[Rung] = []
    before: float | None = None
    for each in card.clubs:
        loft = each.known_club.loft_deg
        if loft is None or not each.club.carried or each.club.of_kind == "putter":
            continue
        step = f", {loft.value - before:+g}" if before is not None else ""
        rungs.append(Rung(each.club.slot, loft.value, 0.0, f"{format_number(loft.value)}°{step}"))
        before = loft.value
    return [Ladder(tuple(rungs), "°", "Loft of the clubs carried, and the step from the one before")] if rungs else []


def _carries(card: BagCard, units: Units) -> list[Block]:
    at_place = card.carry_yd
    tested = [each.carry for each in card.clubs if each.carry and each.club.carried and each.club.address in at_place]
    if len(tested) < 2:
        return []
    steps = {step.shorter: step for step in card.steps}
    unit, rungs = units.symbol("carry_yd"), []
    for carry in sorted(tested, key=lambda each: -at_place[each.slot]):
        yd = at_place[carry.slot]
        reach = 0.0 if carry.high_yd is None else units.convert_difference("carry_yd", carry.high_yd - carry.mean_yd)
        kind = steps[carry.slot].kind if carry.slot in steps else ""
        label = f"{units.convert('carry_yd', yd):.0f} {unit}" + (f", {kind}" if kind else "")
        label += ", stale" if carry.stale else ""
        rungs.append(Rung(ClubRef.parse(carry.slot).slot, units.convert("carry_yd", yd), reach, label))
    when = describe_tests(tested)
    where = f" ({card.carries.place.name}, {describe_model(card.carries.model)})" if card.carries else ""
    caption = f"Carry by each club's own tests{where}; the bar is its 95 % interval" + (f"; {when}" if when else "")
    return [Ladder(tuple(rungs), unit, caption)]


def _makeups(card: BagCard) -> list[Block]:
    if not card.bag.makeup:
        return []
    pairs = tuple((f"{each.name} ({len(each.clubs)})", ", ".join(map(_slot, each.clubs))) for each in card.bag.makeup)
    return [Heading("Make-ups"), Facts(pairs)]


def _slot(address: str) -> str:
    return ClubRef.parse(address).slot


def _findings(card: BagCard) -> list[Block]:
    """What to look at; what could not be checked is only counted."""
    heads = heads_of(each.club for each in card.clubs)
    named = [each._replace(slot=club_name(each.slot, heads) if each.slot else "") for each in card.findings]
    listed = fold_evidence(group([each for each in named if each.level != NOT_CHECKED]))
    lines = [without_ids(Units(card.units).sentence(str(each))) for each in listed]
    unknown = sum(each.level == NOT_CHECKED for each in card.findings)
    out: list[Block] = [Heading("To look at")]
    out.append(Bullets(tuple(lines), "warn") if lines else Paragraph("Nothing was found."))
    if unknown:
        out.append(Paragraph(f"{unknown} checks could not be made for lack of data.", "quiet"))
    return out
