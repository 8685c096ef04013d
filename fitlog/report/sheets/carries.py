"""The card of carries: each club at a place, what moves it, and wedges."""

from collections.abc import Iterable, Mapping

from fitlog.coherence.swings import Cell as SwingCell
from fitlog.flight.balls.coefficients import describe_model
from fitlog.flight.elsewhere import HIGHER_M, WARMER_C, WIND_MPH
from fitlog.records.models.bag import Club
from fitlog.records.wording.plurals import format_count
from fitlog.report.document import Block, Bullets, Cell, Document, Heading, Page, Pair, Paragraph, Table, plain_row
from fitlog.report.sheets.values import MINUS, Units, club_name, display_name, heads_of
from fitlog.views.carries.card import AS_MEASURED, BY_LAUNCH, BY_RATIO, CARRY_METHODS, CarryCard, CarryLine

FOOT = "Carries over level ground, without run. What moves them is computed, and is surer than the carry itself."
_MARKS = {BY_LAUNCH: "", BY_RATIO: "*", AS_MEASURED: "†"}


def document(card: CarryCard, initials: bool = False) -> Document:
    """One page."""
    units = Units(card.units)
    who = display_name(card.player, initials)
    names = dict.fromkeys((card.makeup, card.place.name))  # a make-up is often named after its venue
    what = " · ".join(filter(None, (who, *names, *_ground(card), card.place.words)))
    blocks: list[Block] = []
    if card.lines:
        left = (Heading("Club by club"), _clubs(card, units))
        right = (Heading(units.column_head("carry_yd", "What moves them")), _effects(card, units))
        blocks.append(Pair(left, right))
    else:
        blocks.append(Paragraph("No club that is carried has a tested carry yet.", "open"))
    blocks += _untested_blocks(card)
    blocks += _wedges(card, units)
    blocks += _notes(card, units)
    return Document(f"Carries: {who}", (Page("Carries", what, tuple(blocks)),), FOOT)


def _ground(card: CarryCard) -> Iterable[str]:
    """How high the venue lies and what its ground is like, where its file says so."""
    venue = card.place.venue
    if venue is not None and venue.altitude_m is not None:
        yield f"{venue.altitude_m:,.0f} m up"
    if venue is not None and venue.ground:
        yield venue.ground


def _clubs(card: CarryCard, units: Units) -> Table:
    rows, heads = [], _heads(card)
    for line, gap in card.gaps:
        stale = "stale" if line.carry.stale else ""
        carry = _format_whole(line.yd, units) + _MARKS[line.method]
        spread = f"± {_format_whole(line.carry.sd_yd, units)}" if line.carry.n > 1 else ""
        step = "–" if gap is None else _format_whole(gap, units)
        computed = line.elsewhere is not None
        rows.append(
            (
                Cell(club_name(line.club.address, heads)),
                Cell(carry, computed=computed),
                Cell(step),
                Cell(spread),
                Cell(stale, "warn"),
            )
        )
    titles = ("", units.column_head("carry_yd", "Carry"), "To the next", "Spread", "Evidence")
    return Table(titles, tuple(rows), frozenset({1, 2, 3}))


def _effects(card: CarryCard, units: Units) -> Table:
    warm = f"+{units.convert_difference('temperature_c', WARMER_C):.0f} {units.symbol('temperature_c')}"
    wind = f"{units.convert('wind_mph', WIND_MPH):.0f} {units.symbol('wind_mph')}"
    asked = bool(card.place.wind.speed_mph)
    heads: tuple[str, ...] = ("", warm, f"+{HIGHER_M:,.0f} m", f"{wind} against", f"{wind} behind", f"{wind} across")
    heads += ("This wind", "Drift") if asked else ()
    names = _heads(card)
    rows = [_effect_row(line, club_name(line.club.address, names), units, asked) for line in card.lines]
    return Table(heads, tuple(rows), frozenset(range(1, len(heads))))


def _effect_row(line: CarryLine, name: str, units: Units, is_requested: bool) -> tuple[Cell, ...]:
    there = line.elsewhere
    if there is None:
        return plain_row(name, *["–"] * (7 if is_requested else 5))
    moves = [there.warmer_yd, there.higher_yd, there.into_yd, there.helping_yd]
    texts = [_format_signed(each, units) for each in moves] + [_format_whole(there.across_yd, units)]
    if is_requested:
        side = "R" if there.drift_yd > 0 else "L"
        drift = _format_whole(abs(there.drift_yd), units)
        texts += [_format_signed(there.carry_yd - there.calm_yd, units), f"{drift} {side}" if drift != "0" else "0"]
    return plain_row(name, *texts)


def _heads(card: CarryCard) -> dict[str, str]:
    return heads_of((*(line.club for line in card.lines), *card.untested, *card.wedges))


def _format_whole(yd: float, units: Units) -> str:
    return f"{units.convert_difference('carry_yd', yd):.0f}"


def _format_signed(yd: float | None, units: Units) -> str:
    if yd is None:
        return "–"
    size = f"{abs(units.convert_difference('carry_yd', yd)):.0f}"
    return "0" if size == "0" else f"{'+' if yd > 0 else MINUS}{size}"


def _untested_blocks(card: CarryCard) -> list[Block]:
    if not card.untested:
        return []
    names = ", ".join(club_name(club.address, _heads(card)) for club in card.untested)
    return [Paragraph(f"Not tested yet: {names}.", "open")]


def _wedges(card: CarryCard, units: Units) -> list[Block]:
    """Club by swing, each cell with its spread, then all by carry with gaps."""
    if not card.wedges:
        return []
    rows = tuple(
        (
            Cell(club_name(club.address, _heads(card))),
            *(_cell(card.cells.get((club.address, swing)), units) for swing in card.swings),
        )
        for club in card.wedges
    )
    matrix = Table(("", *card.swings), rows, frozenset(range(1, len(card.swings) + 1)))
    return [Heading(units.column_head("carry_yd", "Wedges by swing")), Pair((matrix,), tuple(_gaps(card, units)))]


def _cell(cell: SwingCell | None, units: Units) -> Cell:
    if cell is None:
        return Cell("–")
    spread = (
        f" ± {_format_whole(cell.sd_yd, units)}" if cell.sd_yd is not None else f" ({format_count(cell.n, 'ball')})"
    )
    stale = ", stale" if cell.stale else ""
    return Cell(_format_whole(cell.mean_yd, units) + spread + stale, "warn" if cell.stale else "")


def _gaps(card: CarryCard, units: Units) -> Iterable[Block]:
    if not card.steps:
        return
    names = _heads(card)
    rows = [_gap_row(step.longer, names, _format_whole(step.yd, units), units) for step in card.steps]
    rows.append(_gap_row(card.steps[-1].shorter, names, "–", units))
    yield Table(("", "Swing", units.column_head("carry_yd", "Carry"), "To the next"), tuple(rows), frozenset({2, 3}))


def _gap_row(cell: SwingCell, names: Mapping[str, str], gap: str, units: Units) -> tuple[Cell, ...]:
    return plain_row(club_name(cell.slot, names), cell.swing, _format_whole(cell.mean_yd, units), gap)


def _notes(card: CarryCard, units: Units) -> list[Block]:
    used = dict.fromkeys(line.method for line in card.lines)
    notes = [f"{_MARKS[how]} {CARRY_METHODS[how]}".strip() for how in used]
    if used.keys() - {AS_MEASURED}:
        notes.append(f"each carry is the mean as measured times a ratio of two flights {describe_model(card.model)}")
    if card.lines:
        notes.append("spread: standard deviation of the balls as hit")
        wind = f"{units.convert('wind_mph', WIND_MPH):.0f} {units.symbol('wind_mph')}"
        notes.append(f"across: how far {wind} from the side moves a ball")
    if any(line.carry.stale for line in card.lines):
        notes.append("stale: since the test the ball or the club changed, or it has grown old")
    if missing := [f"{club_name(club.address, _heads(card))} {swing}" for club, swing in _missing_cells(card)]:
        notes.append(f"not hit yet: {', '.join(missing)}")
    return [Bullets((*notes, *card.notes), "quiet")] if notes or card.notes else []


def _missing_cells(card: CarryCard) -> Iterable[tuple[Club, str]]:
    return ((club, swing) for club in card.wedges for swing in card.swings if (club.address, swing) not in card.cells)
