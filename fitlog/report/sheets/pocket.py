"""The bag card for the pocket: a line a club, carries first, then lofts.

Gaps with the carries, wedges by swing.
"""

from fitlog.flight.balls.coefficients import describe_model
from fitlog.records.naming.slots import PUTTER
from fitlog.records.wording.units import format_number
from fitlog.report.document import Block, Cell, Heading, Page, Paragraph, Table, plain_row
from fitlog.report.sheets.values import Units, club_name, heads_of
from fitlog.views.sheets.bag_card import BagCard, CardClub
from fitlog.views.sheets.verdict_sheet import describe_ball


def pocket_page(card: BagCard, name: str, units: Units) -> Page:
    """As large as a scorecard, and one screen of a phone."""
    blocks: list[Block] = [_yardages(card, units), *_swings(card, units)]
    ball = describe_ball(card.bag.ball)
    place = card.carries.place if card.carries else None
    words = [f"as at {card.at}" if card.at else "", card.bag.season or "", ball, place.name if place else ""]
    if place:
        words.append(units.format("temperature_c", place.air.temperature_c))
    if card.carries:
        blocks.append(Paragraph(f"Carries {describe_model(card.carries.model)}", "quiet"))
    blocks.append(Paragraph(last_change(card), "quiet"))
    return Page(name, " · ".join(filter(None, words)), tuple(blocks), kind="pocket")


def last_change(card: BagCard) -> str:
    """Who built the newest club, who changed the bag last, and when."""
    built = f"built {card.built}{_by(card.built_by)}" if card.built else ""
    changed = f"changed {card.last_change.when.date()}{_by(card.changed_by)}" if card.last_change else ""
    return " · ".join(filter(None, (built, changed)))


def _by(name: str) -> str:
    return f" by {name}" if name else ""


def _yardages(card: BagCard, units: Units) -> Table:
    """A line for each club carried, longest carry first, then those not tested."""
    carries = card.carry_yd
    clubs = [each for each in card.clubs if each.club.carried and each.club.of_kind != PUTTER]
    clubs.sort(key=lambda each: -carries.get(each.club.address, 0.0))
    rows, heads = [], heads_of(each.club for each in clubs)
    for place, each in enumerate(clubs):
        yd = carries.get(each.club.address)
        after = carries.get(clubs[place + 1].club.address) if place + 1 < len(clubs) else None
        gap = f"{units.convert_difference('carry_yd', yd - after):.0f}" if yd and after else "–"
        carry = f"{units.convert('carry_yd', yd):.0f}" if yd else "–"
        rows.append((Cell(club_name(each.club.address, heads)), Cell(carry), Cell(gap), Cell(_loft(each))))
    return Table(("", units.column_head("carry_yd", "Carry"), "Gap", "Loft"), tuple(rows), frozenset({1, 2, 3}))


def _loft(each: CardClub) -> str:
    return f"{format_number(each.known_club.loft_deg.value)}°" if each.known_club.loft_deg else "–"


def _swings(card: BagCard, units: Units) -> list[Block]:
    """The wedges by swing, where partial ones were hit."""
    of = card.carries
    if of is None or not any(swing != "full" for _, swing in of.cells):
        return []
    swings = [swing for swing in of.swings if any(key[1] == swing for key in of.cells)]
    rows, heads = [], heads_of(of.wedges)
    for club in of.wedges:
        cells = [of.cells.get((club.address, swing)) for swing in swings]
        carries = [f"{units.convert_difference('carry_yd', cell.mean_yd):.0f}" if cell else "–" for cell in cells]
        rows.append(plain_row(club_name(club.address, heads), *carries))
    return [Heading("Wedges"), Table(("", *swings), tuple(rows), frozenset(range(1, len(swings) + 1)))]
