"""What a test's shots say, as blocks: effects, criteria, shots, picture.

The limits of the data stand there too.
"""

from collections.abc import Mapping, Sequence

from fitlog.evidence.assessment.findings import Assessment, QuantityComparison
from fitlog.evidence.intervals.summary import Summary, SummaryPair
from fitlog.evidence.pattern.dispersion import cloud, dispersion_of
from fitlog.evidence.pattern.picture import SHAPES, Series, landing_scene
from fitlog.evidence.shots.quantities import QUANTITIES
from fitlog.evidence.shots.terms import format_side
from fitlog.evidence.shots.wording import SURE, count, format_interval, format_p
from fitlog.records.errors import Refusal
from fitlog.records.models.session import MEASURES
from fitlog.records.wording.glossary import shot_heading
from fitlog.records.wording.plurals import plural
from fitlog.records.wording.words import without_ids
from fitlog.report.document import Block, Bullets, Cell, Figure, Heading, Pair, Paragraph, Table, Tone
from fitlog.report.sheets.values import Units
from fitlog.views.evidence.effects import format_effect, words_of
from fitlog.views.evidence.presentation import COMPUTED, LIMITS, NO_CRITERION, ODD, describe_more
from fitlog.views.sheets.verdict_sheet import ShotRow, TestedSetup, VerdictSheet
from fitlog.views.verdict.flights import COMPUTED_KEYS, ModelledQuantity

_FIRST = (
    "carry_yd", "total_yd", "offline_yd", "start_yd", "curve_yd", "peak_height_yd", "descent_deg", "ball_speed_mph",
    "head_speed_mph", "speed_ratio", "launch_deg", "spin_rpm",
)  # fmt: skip
# The same thing in another unit: told once, in yards, where both can be told.
_TWINS = {"direction_deg": "start_yd", "spin_axis_deg": "curve_yd"}
Summaries = Mapping[str, SummaryPair]
_ODD = 3  # odd readings told one by one: a sheet has no room for a long list
_BESIDE, _ALONE = 9, 17  # measures of a shot that fit on paper beside as many of the other club, and across the page
_ON_PAPER = (
    "carry_yd", "offline_yd", "ball_speed_mph", "launch_deg", "spin_rpm", "direction_deg", "spin_axis_deg",
    "peak_height_yd",
    "descent_deg",
)  # fmt: skip


# effects


def effects(sheet: VerdictSheet, units: Units) -> list[Block]:
    """Each quantity of both sides, the difference with its interval, p last."""
    found = sheet.assessment
    if found is None:
        return [Paragraph("No shot was hit, so there is nothing to compare.", "open")]
    with_all = found.with_all.compared if found.with_all else {}
    if sheet.reference is None:
        return _blocks_without_reference(sheet, found, units)
    heads = ("", "Reference", "Candidate", "Difference", SURE, "With all shots", "p")
    rows = []
    for key in _sort_keys(list(found.summaries)):
        own, base = (_mean(side, key, units) for side in (found.summaries, found.reference))
        cells = _difference(found.without.compared.get(key), with_all.get(key), key, units)
        rows.append((Cell(units.column_head(key, QUANTITIES[key].label)), Cell(base), Cell(own), *cells))
        if key == "carry_yd":
            rows += _normal_rows(sheet, units)
    flown = sheet.context.flights
    rows += [_modelled_row(flown.quantities[key], units) for key in COMPUTED_KEYS if key in flown.quantities]
    note = (
        "Mean ± standard deviation; difference: the middle of all pairs of shots, one of each club; none is seen"
        " where the interval includes zero"
    )
    note += "; intervals and p hold for all candidates together" if found.candidates > 1 else ""
    return [Table(heads, tuple(rows), frozenset({6}), stacks=True), Paragraph(note, "quiet")]


def _blocks_without_reference(sheet: VerdictSheet, assessment: Assessment, units: Units) -> list[Block]:
    """Each quantity of a candidate without a reference, with its mean's bounds."""
    rows = []
    for key in _sort_keys(list(assessment.summaries)):
        middle = assessment.without.middles.get(key)
        span = format_interval(key, middle.low, middle.high, units) if middle else "–"
        head = units.column_head(key, QUANTITIES[key].label)
        rows.append((Cell(head), Cell(_mean(assessment.summaries, key, units)), Cell(span)))
        if key == "carry_yd":
            rows += [(row[0], row[2], Cell("–")) for row in _normal_rows(sheet, units)]
    filled = sheet.context.flights.quantities
    computed = [_modelled_row(filled[key], units) for key in COMPUTED_KEYS if key in filled]
    rows += [(row[0], row[2], Cell("–")) for row in computed]
    half = (len(rows) + 1) // 2
    heads = ("", "Candidate", f"Middle shot, {SURE}")
    first, second = (Table(heads, tuple(part)) for part in (rows[:half], rows[half:]))
    note = Paragraph("Mean ± standard deviation", "quiet")
    return [Pair((first,), (second,)) if second.rows else first, note]


def _sort_keys(keys: Sequence[str]) -> list[str]:
    known = [key for key in keys if _TWINS.get(key) not in keys]
    return sorted(known, key=lambda key: (_FIRST.index(key) if key in _FIRST else 99, known.index(key)))


def _mean(side: Mapping[str, SummaryPair], key: str, units: Units) -> str:
    of = side[key].without if key in side else None
    if of is None:
        return "–"
    if of.sd is None:
        return units.format_number(key, of.mean)
    return f"{units.format_number(key, of.mean)} ± {units.format_width(key, of.sd)}"


def _difference(
    comparison: QuantityComparison | None, with_all: QuantityComparison | None, key: str, units: Units
) -> tuple[Cell, ...]:
    if comparison is None:
        return (Cell("–"), Cell("–"), Cell("–"), Cell("–"))
    tone: Tone = "" if comparison.difference.tells else "quiet"
    return (
        Cell(format_effect(key, comparison.difference, units), tone),
        Cell(words_of(key, comparison.difference, units).span, tone),
        Cell(format_effect(key, with_all.difference, units) if with_all else "–", "quiet"),
        Cell(format_p(comparison.difference.p), "quiet"),
    )


def _normal_rows(sheet: VerdictSheet, units: Units) -> list[tuple[Cell, ...]]:
    normal = sheet.context.flights.normal
    return [_modelled_row(normal, units, "carry in ref. air")] if normal is not None else []


def _modelled_row(of: ModelledQuantity, units: Units, name: str = "") -> tuple[Cell, ...]:
    """A computed quantity, marked as such in every field."""
    key, found, effect = of.metric, of.difference, ("–", "–")
    if found is not None:
        effect = (format_effect(key, found, units), words_of(key, found, units).span)
    means = (_format_computed(of.reference, of.of_reference, key, units), _format_computed(of.own, of.of, key, units))
    head = Cell(units.column_head(key, name or QUANTITIES[key].label), computed=True)
    cells = [Cell(each, computed=True) for each in (*means, *effect)]
    return (head, *cells, Cell("–"), Cell("–"))


def _format_computed(of: Summary | None, shots: int, key: str, units: Units) -> str:
    if of is None:
        return "–"
    mean = units.format_number(key, of.mean) + (f" ± {units.format_width(key, of.sd)}" if of.sd is not None else "")
    return mean if of.n == shots else f"{mean} ({of.n} of {shots})"


# criteria


def criteria(sheet: VerdictSheet) -> list[Block]:
    """Each criterion with its outcome, what was measured, and what is missing."""
    presentation = sheet.presentation
    if not presentation.standings:
        return [no_criterion()]
    rows = tuple(
        (Cell(one.criterion), Cell(one.label.text, one.label.tone), Cell(one.measure or "–"), Cell(one.advice))
        for one in presentation.standings
    )
    table = Table(("Criterion", "Outcome", "Measured", "What is missing"), rows, stacks=True)
    return [table, *([Bullets(presentation.criteria_changed, "warn")] if presentation.criteria_changed else [])]


def no_criterion() -> Paragraph:
    """That the test had nothing to show."""
    return Paragraph(f"{NO_CRITERION.capitalize()}.", "open")


# shots


def both_shots(sheet: VerdictSheet, units: Units) -> Pair:
    """The shots of both clubs, side by side on paper with what fits there.

    The measures that decide.
    """
    room = _ALONE if sheet.reference is None else _BESIDE
    own = _shots(sheet.candidate, "candidate", units, paper=room)
    base = _shots(sheet.reference, "reference", units, paper=_BESIDE) if sheet.reference else []
    return Pair(tuple(own), tuple(base), printed=True)


def _measured_keys(hit: TestedSetup) -> list[str]:
    return [
        key
        for key in MEASURES
        if any(
            getattr(row.shot, key) is not None or (key in COMPUTED_KEYS and key in row.flight.computed)
            for row in hit.rows
        )
    ]


def _shots(hit: TestedSetup, name: str, units: Units, paper: int) -> list[Block]:
    """Every shot as measured; those left out are struck, and say why.

    Suspected mishits say so.
    """
    if not hit.rows:
        return [Heading(f"Shots: {name}"), Paragraph("None yet.", "quiet")]
    keys = _measured_keys(hit)
    heads = ["", *(units.column_head(key, shot_heading(key, QUANTITIES[key].label)) for key in keys)]
    heads.append(units.column_head("carry_yd", "ref. air"))
    rows = tuple(_shot(number, row, keys, units) for number, row in enumerate(hit.rows, 1))
    notes = tuple(note for number, row in enumerate(hit.rows, 1) if (note := _shot_note(number, row)))
    decide = sorted(keys, key=lambda key: _ON_PAPER.index(key) if key in _ON_PAPER else 99)[:paper]
    dropped = frozenset(place for place, key in enumerate(keys, 1) if key not in decide)
    table = Table(tuple(heads), rows, frozenset(range(1, len(keys) + 2)), screen=dropped)
    return [Heading(f"Shots: {name}"), table, *([Paragraph(" · ".join(notes), "quiet")] if notes else [])]


def _shot(number: int, row: ShotRow, keys: Sequence[str], units: Units) -> tuple[Cell, ...]:
    out = bool(row.shot.excluded)
    mark = "×" if out else "?" if row.suspected else ""
    cells = []
    for key in keys:
        measured = getattr(row.shot, key)
        filled = row.flight.computed.get(key) if measured is None else None
        value = measured if filled is None else filled
        cells.append(Cell(units.format_number(key, value), computed=filled is not None, struck=out))
    cells.append(Cell(units.format_number("carry_yd", row.flight.normal_carry_yd), computed=True, struck=out))
    return (Cell(f"{number}{mark}", "warn" if mark else ""), *cells)


def _shot_note(number: int, row: ShotRow) -> str:
    """What is to be said of a shot: why it was left out, how it felt."""
    shot = row.shot
    notes = [f"left out: {shot.excluded}"] if shot.excluded else []
    notes += [text for text in (shot.feel, shot.note) if text]
    return f"{number}: {'; '.join(notes)}" if notes else ""


# the picture


def picture(sheets: Sequence[VerdictSheet], units: Units, names: Mapping[str, str]) -> list[Block]:
    """Reference and candidates overlaid, with what their patterns say.

    It needs carry and offline.
    """
    first = sheets[0]
    hits = [("reference", first.reference)] if first.reference else []
    hits += [(names[sheet.ref], sheet.candidate) for sheet in sheets]
    everyone = [_series(name, hit, units) for name, hit in hits]
    drawn = everyone[: len(SHAPES)]
    try:
        scene = landing_scene(drawn)
    except Refusal:
        return [Paragraph("No picture: no shot has both carry and offline.", "quiet")]
    legend = tuple(_pattern(series, units) for series in drawn)
    unit = units.symbol("carry_yd")
    caption = "Seen from above, target line dotted; ellipses for one in two and 19 in 20 of the next shots; + centre"
    caption += ", × left out" if any(one.left_out for one in drawn) else ""
    caption += f", {count(scene.beyond)} of them too far off to be drawn" if scene.beyond else ""
    if len(everyone) > len(drawn):
        more = len(everyone) - len(drawn)
        caption += f"; {count(more)} more {'is' if more == 1 else 'are'} not drawn"
    return [Figure(scene, legend, caption, unit)]


def _series(name: str, hit: TestedSetup, units: Units) -> Series:
    counted: list[tuple[float, float]] = []
    out: list[tuple[float, float]] = []
    for row in hit.rows:
        if row.shot.carry_yd is not None and row.shot.offline_yd is not None:
            point = (units.convert("offline_yd", row.shot.offline_yd), units.convert("carry_yd", row.shot.carry_yd))
            (out if row.shot.excluded else counted).append(point)
    found = dispersion_of(cloud([x for x, _ in counted], [y for _, y in counted])) if len(counted) >= 3 else None
    return Series(name, counted, out, found)


def _pattern(series: Series, units: Units) -> str:
    name = series.name
    if series.dispersion is None:
        n = len(series.points)
        return f"{name}: {count(n)} {plural(n, 'shot')}, too few for an ellipse"
    unit, of = units.unit("carry_yd"), series.dispersion
    return (
        f"{name}: {format_side(of.cloud.x, unit)} at {of.cloud.y:.0f} {unit}; 19 of 20 within"
        f" {of.most.half_long:.0f} × {of.most.half_short:.0f} {unit}"
    )


# what is said


def sentences(sheet: VerdictSheet, *kinds: str) -> list[Block]:
    """The sentences of some kinds under headings; paper names no address.

    It names no command either.
    """
    out: list[Block] = []
    for each in sheet.presentation.sections:
        if each.kind in kinds:
            heading = f"{each.heading[:1].upper()}{each.heading[1:]}"
            lines = tuple(map(without_ids, each.sentences))
            out += [Heading(f"≈ {heading}" if each.kind == COMPUTED else heading), Bullets(lines)]
    return out


def limits(sheet: VerdictSheet) -> list[Block]:
    """What to know before believing the numbers; odd readings as room allows."""
    presentation = sheet.presentation
    lines = [each for each in presentation.section(LIMITS) if not each.startswith(ODD)]
    odd = [each for each in presentation.section(LIMITS) if each.startswith(ODD)]
    lines += odd[:_ODD] + ([describe_more(len(odd) - _ODD)] if len(odd) > _ODD else [])
    lines += sheet.since
    if not presentation.has_reference:
        lines.append(f"reference: {presentation.reference}")
    if not sheet.candidate.rows:
        return [Bullets((*lines, presentation.shots))]
    lines.append(_describe_method(sheet.assessment))
    return [Bullets(tuple(lines))]


def _describe_method(assessment: Assessment | None) -> str:
    return (
        "an outcome rests on the 95 % interval, which holds however often one looks; intervals and ellipses take"
        f" the shots as a fair sample of this player's normal swings{f' ({assessment.method})' if assessment else ''}"
    )
