"""What stands beside the bench's values: sums, target, cut, sleeve, stock."""

from collections.abc import Iterable, Sequence

from textual.content import Content

from fitlog.bench.building.cautions import lines as caution_lines
from fitlog.bench.building.sensitivity import Sensitivity
from fitlog.bench.measures.points import TOP, customary, format_points
from fitlog.bench.measures.readings import Difference
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import format_number
from fitlog.tui.text.sanitize import safe, wrap
from fitlog.tui.widgets.scroll_text import heading, line
from fitlog.views.bench.builds import cost_text, further_assumptions
from fitlog.views.bench.effects import FREQUENCY_MODEL, example_carry, frequencies, lie_rows, offline_text, sleeves
from fitlog.views.bench.fitting_bends import LENGTH_NOTE, LOFT_NOTE, length_rows, length_text, loft_rows, loft_text
from fitlog.views.bench.listing import BenchLayout
from fitlog.views.bench.options import match_text, matchings, ways_to
from fitlog.views.bench.sheet import Sheet
from fitlog.views.bench.stock_solver import SHAFTS, TRIMS, SolverResult

_MUTED, _BAD, _WARN, _GOOD, _ACCENT = "$ink-muted", "$ink-bad", "$ink-warn", "$ink-good", "$ink-accent"
_SUMS = (
    ("swing weight", "swing_weight", "", 1),
    ("weight", "mass_g", "g", 1),
    ("balance point", "balance_in", "in", 2),
    ("MOI, butt", "moi_butt_kg_cm2", "kg·cm²", 0),
    ("MOI, balance", "moi_cg_kg_cm2", "kg·cm²", 0),
)


def wrap_text(text: str, width: int, style: str = "", mark: str = "") -> list[Content]:
    """A sentence in rows of the pane's width; ``mark`` stands before its first row."""
    rows = wrap(safe(text), max(width - len(mark), 20))
    indent = " " * len(mark)
    return [line((mark if not n else indent, style or _ACCENT), (row, style)) for n, row in enumerate(rows)]


def sums_pane(sheet: Sheet, width: int) -> list[Content]:
    """The components' sums beside what was measured, and a gram's effect.

    The effect of an inch stands there too.
    """
    out: list[Content] = []
    if sheet.sums is None:
        out += wrap_text("not computed from components: " + sheet.missing, width, _WARN, "! ")
    else:
        out += _sums(sheet)
    if sheet.measured is not None:
        out.append(_pair("from measured weight and balance point", sheet.measured.swing_weight))
    others = [row for row in sheet.differences if row.expected_from != "components"]
    out += [each for row in others if row.disagrees for each in _disagreement_lines(row, sheet.work.units, width)]
    if agreeing := [row.quantity for row in others if not row.disagrees]:
        out += wrap_text("as on the sheet, within tolerance: " + ", ".join(agreeing), width, _MUTED, "· ")
    if sheet.sensitivities:
        out.append(line(("a gram or an inch more, in points", _MUTED), ("   rule of thumb in brackets", _MUTED)))
        out += _senses(sheet.sensitivities, width)
    if sheet.assumed:
        out += wrap_text("assumed: " + ", ".join(sheet.assumed), width, _MUTED)
    for each in sheet.notes:
        out += wrap_text(each, width, _MUTED, "· ")
    return out


def _sums(sheet: Sheet) -> list[Content]:
    measured = {row.quantity: row for row in sheet.differences if row.expected_from == "components"}
    out = [line((f"{'':<16}{'from components':<17}{'measured':<11}difference", _MUTED))]
    for name, key, unit, places in _SUMS:
        value = getattr(sheet.sums, key)
        text = value + _format_customary(sheet) if isinstance(value, str) else _amount(sheet, value, places, unit)
        row = measured.get("MOI about the butt" if name == "MOI, butt" else name)
        tail: list[tuple[str, str]] = []
        if row is not None:
            tail = [(f"{_format_measured(sheet, row, places, unit):<11}", ""), _gap(row)]
        out.append(line((f"{name:<16}", _MUTED), (f"{text:<17}", "bold" if name == "swing weight" else ""), *tail))
    out.append(line(("swing weight to a tenth, in brackets to the nearest point", _MUTED)))
    return out


def _amount(sheet: Sheet, value: float, places: int, unit: str) -> str:
    return sheet.work.units.lengths(value, places) if unit == "in" else f"{value:.{places}f} {unit}"


def _format_customary(sheet: Sheet) -> str:
    points = sheet.sums.points if sheet.sums else -1.0
    return f" ({customary(points)})" if 0 <= points <= TOP else ""


def _format_measured(sheet: Sheet, row: Difference, places: int, unit: str) -> str:
    return format_points(row.measured) if row.unit == "points" else _amount(sheet, row.measured, places, unit)


def _gap(row: Difference) -> tuple[str, str]:
    places = 2 if row.unit == "in" else 1
    if not row.disagrees:
        return ("agree", _GOOD)
    return (f"! {row.difference:+.{places}f} (±{row.tolerance:g})", _BAD)


def _disagreement_lines(row: Difference, units: DisplayUnits, width: int) -> list[Content]:
    from fitlog.bench.measures.readings import sentence

    return wrap_text(units.sentence(sentence(row)), width, _BAD, "! ")


def _senses(rows: Sequence[Sensitivity], width: int) -> list[Content]:
    cells = []
    for each in rows:
        rule = f" ({each.rule:+.2f})" if each.rule is not None else ""
        cells.append(f"{each.what} {each.points:+.2f}/{each.unit}{rule}")
    return [line(row) for row in _fill_rows(cells, width)]


def _fill_rows(cells: Iterable[str], width: int) -> list[str]:
    rows: list[str] = []
    for cell in cells:
        if rows and len(rows[-1]) + 3 + len(cell) <= width:
            rows[-1] += "   " + cell
        else:
            rows.append(cell)
    return rows


def _pair(name: str, value: str) -> Content:
    return line((name + "  ", _MUTED), (value, ""))


def target_pane(layout: BenchLayout, sheet: Sheet, width: int) -> list[Content]:
    """The one change that meets the aimed swing weight, and the other club's."""
    aim = layout.aim
    out: list[Content] = []
    if aim.points is None:
        out += wrap_text(
            "no target is given: type a swing weight, or a club to be like, into the list", width, _MUTED
        )
    else:
        out.append(heading(f"to {format_points(aim.points)}, by one change alone"))
        for way in ways_to(sheet, aim.points):
            becomes = f"  → {way.becomes:.2f} {way.unit}" if way.becomes is not None else ""
            text = f"{way.change:+.2f} {way.unit}{becomes}" if way.change is not None else way.refusal
            text = sheet.work.units.sentence(text)
            out += wrap_text(f"{way.what:<12} {text}" if way.change is not None else f"{way.what}: {text}", width)
    if aim.reference is not None:
        reference = aim.reference
        tail = f"{reference.swing_weight}, {reference.mass_g:.1f} g, {reference.moi_butt_kg_cm2:.0f} kg·cm²"
        out.append(heading(f"to match the {safe(aim.like)}", tail))
        for each in matchings(sheet, reference):
            out += wrap_text(match_text(each), width, "", "· ")
    if sheet.sums is None:
        out += wrap_text(sheet.missing, width, _WARN, "! ")
    return out


def cut_pane(sheet: Sheet, width: int) -> list[Content]:
    """Where to cut, in the order of work."""
    cut = sheet.cut
    if cut.plan is None:
        return wrap_text("no cut plan: " + cut.missing, width, _WARN, "! ")
    plan, units = cut.plan, sheet.work.units
    left = (
        "" if plan.parallel_left_in is None else f", {units.lengths(plan.parallel_left_in)} of parallel section left"
    )
    tail = f"cut shaft {units.lengths(plan.cut_in, 3)}, butt trim {units.lengths(plan.butt_trim_in, 3)}{left}"
    out = [
        heading(f"{units.lengths(plan.raw_in)} blank → {units.lengths(plan.length_in)} club"),
        *wrap_text(tail, width),
    ]
    for place, step in enumerate(cut.steps, 1):
        out += wrap_text(step, width, "", f"{place}. ")
    for each in cut.warnings:
        out += wrap_text(each, width, _WARN, "! ")
    if cut.assumed:
        out += wrap_text("assumed: " + ", ".join(cut.assumed), width, _MUTED)
    return out


def sleeve_pane(sheet: Sheet, width: int, carry_yd: float | None) -> list[Content]:
    """What the sleeve's positions, a wrong lie and a change of the built club do."""
    found = sleeves(sheet)
    out: list[Content] = []
    if found.rows:
        out.append(heading("sleeve"))
        out += wrap_text(found.source, width, _MUTED)
        for row in found.rows:
            mark = "● " if row.now else "  "
            out += wrap_text(f"{safe(row.position):<4} {row.text}", width, _GOOD if row.now else "", mark)
            for way in row.by_convention:
                if way != row.text:
                    out += wrap_text(way, width, _MUTED, "       ")
        if found.ask:
            out += wrap_text(found.ask, width, _WARN, "! ")
    else:
        out += wrap_text("sleeve: " + found.missing, width, _MUTED)
    carry = example_carry(sheet) if carry_yd is None else carry_yd
    if rows := lie_rows(sheet, carry):
        out.append(heading("lie", f"face, and where the ball starts at {format_number(carry)} yd; right is +"))
        for lie in rows:
            how = "too upright" if lie.error_deg > 0 else "too flat"
            out.append(line(f"{abs(lie.error_deg):g}° {how:<12} {lie.face_deg:+.2f}°  {offline_text(lie, carry)}"))
    if lengths := length_rows(sheet):
        out.append(heading("length and lie"))
        out += wrap_text(LENGTH_NOTE, width, _MUTED)
        out += [line(sheet.work.units.sentence(length_text(each))) for each in lengths]
    if lofts := loft_rows(sheet):
        out.append(heading("bent for loft"))
        out += wrap_text(LOFT_NOTE, width, _MUTED)
        out += [each for bent in lofts for each in wrap_text(loft_text(bent), width)]
    if changes := frequencies(sheet):
        out.append(heading("frequency", f"measured {sheet.work.readings.frequency_cpm:g} cpm"))
        out += wrap_text(sheet.work.units.sentence(FREQUENCY_MODEL), width, _MUTED)
        out += [line(row) for row in _fill_rows((f"{each.what} {each.by:+.1f} cpm" for each in changes), width)]
    return out


def stock_pane(
    layout: BenchLayout, sheet: Sheet, result: SolverResult | None, trouble: str, width: int
) -> list[Content]:
    """The nearest builds from what lies in parts/."""
    if trouble:
        return wrap_text(trouble, width, _WARN, "! ")
    if all(goal is None for goal in layout.aim.target):
        return wrap_text(
            "no target is given: type a swing weight, a weight or a club to be like into the list", width, _MUTED
        )
    if result is None:
        return [line(("looking at everything in stock …", _MUTED))]
    answer, units = result.answer, layout.work.units
    summary = f"{answer.combinations:,} builds looked at, {answer.within} within tolerance; 1–9 puts one on the bench"
    out = [*wrap_text(summary, width, _MUTED)]
    for place, (build, cost) in enumerate(list(zip(answer.builds, result.costs, strict=True))[:9], 1):
        chosen = build.choice
        cut = chosen.tip_trim_in if layout.aim.vary & {SHAFTS, TRIMS} else None
        trim = "" if cut is None else f"tip {units.in_words('length_in', cut)}"
        weights = (chosen.head_weight, chosen.tip_weight, chosen.butt_weight)
        length = chosen.length_in if layout.aim.lengths else None
        long = f"{units.in_words('length_in', length)} long" if length else ""
        parts = ", ".join(filter(None, (chosen.head, *weights, chosen.shaft, trim, long, chosen.grip)))
        mark = "● " if build.within else "  "
        text = f"{build.sums.swing_weight} {build.sums.mass_g:.1f} g  {parts}"
        out += wrap_text(text, width, _GOOD if build.within else "", f"{place} {mark}")
        out += wrap_text(cost_text(cost), width, _MUTED, "    ")
    if new := further_assumptions(sheet, answer.builds[:9]):
        out += wrap_text("also assumed, for some of them: " + ", ".join(new), width, _MUTED, "· ")
    for each in (*filter(None, [answer.advice]), *result.notes, *answer.left_out[:3]):
        out += wrap_text(each, width, _MUTED, "· ")
    return out


def cautions_pane(width: int) -> list[Content]:
    """What to mind in the workshop."""
    return [each for text in caution_lines() for each in wrap_text(text, width, "", "· ")]
