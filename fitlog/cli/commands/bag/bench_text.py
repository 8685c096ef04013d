"""bench in words: one club's sheet, ways to a target, bends, and builds."""

from typing import TYPE_CHECKING, Any

from fitlog.cli import output

if TYPE_CHECKING:
    from fitlog.records.wording.display_units import DisplayUnits
    from fitlog.views.bench.sheet import Sheet
    from fitlog.views.bench.stock_solver import SolverResult


def show(sheet: "Sheet") -> None:
    """Show the sums, values, assumptions, readings, and the cut plan."""
    from fitlog.bench.measures.readings import sentence
    from fitlog.records.wording.words import describe_changes, describe_setup

    work = sheet.work
    output.print_line(f"{work.player} {work.place}: {describe_setup(work.table, work.units)}")
    if differs := describe_changes(work.before, work.table, units=work.units):
        output.print_line(f"changed: {differs}")
    if sheet.sums is None:
        output.print_line(f"not computed from components: {sheet.missing}")
    else:
        _show_sums(sheet)
    if sheet.measured is not None:
        output.print_line(f"swing weight {sheet.measured.swing_weight} from measured weight and balance point")
    output.print_line("values:")
    rows = [
        (each.name, _with_unit(sheet, each.key, each.value, each.unit), each.mark, each.source)
        for each in sheet.values
    ]
    output.print_table(rows)
    for title, lines in (("assumed", sheet.assumed), ("notes", sheet.notes)):
        if lines:
            output.print_line(f"{title}:")
            for each in lines:
                output.print_indented(each, "  ")
    if sheet.differences:
        output.print_line("measured:")
        for row in sheet.differences:
            output.print_indented(("! " if row.disagrees else "  ") + sheet.work.units.sentence(sentence(row)), "  ")
    _show_cut(sheet)


def _with_unit(sheet: "Sheet", key: str, value: float, unit: str) -> str:
    from fitlog.records.wording.units import format_number

    units = sheet.work.units
    return units.format(key, value) if unit == "in" else f"{format_number(value)} {unit}".strip()


def _show_sums(sheet: "Sheet") -> None:
    sums = sheet.sums
    assert sums is not None
    output.print_line("from components:")
    rows = [
        ("swing weight", f"{sums.swing_weight} ({sums.moment_in_oz:.1f} in·oz){_customary(sums.points)}"),
        ("weight", f"{sums.mass_g:.1f} g"),
        ("balance point", f"{sheet.work.units.lengths(sums.balance_in, 2)}"),
        ("MOI about the butt", f"{sums.moi_butt_kg_cm2:.0f} kg·cm²"),
        ("MOI about the balance point", f"{sums.moi_cg_kg_cm2:.0f} kg·cm²"),
    ]
    output.print_table(rows)
    output.print_line("a gram or an inch more gives:")
    output.print_table(
        [
            (
                each.what,
                f"{each.points:+.2f} points per {each.unit}",
                "" if each.at_in is None else f"at {sheet.work.units.lengths(each.at_in, 2)}",
                f"rule: {each.rule_words}" if each.rule else "",
            )
            for each in sheet.sensitivities
        ]
    )


def _customary(points: float) -> str:
    from fitlog.bench.measures.points import TOP, customary

    return f", {customary(points)} to the nearest point" if 0 <= points <= TOP else ""


def show_sleeve(sheet: "Sheet") -> None:
    """What each position of the sleeve changes."""
    from fitlog.views.bench.effects import sleeves

    turned = sleeves(sheet)
    if turned.rows:
        output.print_line(f"sleeve, {turned.source}:")
        rows = []
        for row in turned.rows:
            rows.append((f"{row.position}{' (now)' if row.now else ''}", row.text))
            rows += [("", way) for way in row.by_convention if way != row.text]
        output.print_table(rows)
        if turned.ask:
            output.print_line(turned.ask)


def show_lie(sheet: "Sheet", carry: float) -> None:
    """What a lie too flat or too upright does."""
    from fitlog.records.wording.units import format_number
    from fitlog.views.bench.effects import lie_rows, offline_text

    if rows := lie_rows(sheet, carry):
        output.print_line(
            f"lie: where the face points, and where the ball starts at {format_number(carry)} yd; right is +:"
        )
        output.print_table(
            [
                (f"{abs(row.error_deg):g}° too {'upright' if row.error_deg > 0 else 'flat'}",
                 f"{row.face_deg:+.2f}°", offline_text(row, carry))
                for row in rows
            ]
        )  # fmt: skip


def show_bends(sheet: "Sheet") -> None:
    """Show what another length does to the lie, and a bend to bounce and offset."""
    from fitlog.views.bench.fitting_bends import (
        LENGTH_NOTE,
        LOFT_NOTE,
        length_rows,
        length_text,
        loft_rows,
        loft_text,
    )

    if lengths := length_rows(sheet):
        output.print_line(f"length and lie, {LENGTH_NOTE}:")
        for each in lengths:
            output.print_indented(sheet.work.units.sentence(length_text(each)), "  ")
    if lofts := loft_rows(sheet):
        output.print_line(f"bent for loft, {LOFT_NOTE}:")
        for bent in lofts:
            output.print_indented(loft_text(bent), "  ")


def show_frequency(sheet: "Sheet") -> None:
    """What changes the measured frequency."""
    from fitlog.views.bench.effects import FREQUENCY_MODEL, frequencies

    if rows := frequencies(sheet):
        model = sheet.work.units.sentence(FREQUENCY_MODEL)
        output.print_line(f"frequency, {sheet.work.readings.frequency_cpm:g} cpm as measured; {model}:")
        output.print_table([(row.what, f"{row.by:+.1f} cpm") for row in rows])


def _show_cut(sheet: "Sheet") -> None:
    cut = sheet.cut
    if cut.plan is None:
        output.print_line(f"no cut plan: {cut.missing}")
        return
    output.print_line("cut plan:" + (f" (assumed: {', '.join(cut.assumed)})" if cut.assumed else ""))
    for place, each in enumerate(cut.steps, 1):
        output.print_indented(f"{place}. {each}", "  ")
    for each in cut.warnings:
        output.print_indented(f"! {each}", "  ")


def show_ways(options: Any, points: float | None, units: "DisplayUnits") -> None:
    """Each change that alone meets the target."""
    from fitlog.bench.measures.points import format_points

    output.print_line(f"to {format_points(points or 0.0)}, by one change alone:")
    for way in options:
        becomes = f", to {way.becomes:.2f} {way.unit}" if way.becomes is not None else ""
        text = way.refusal or f"{way.change:+.2f} {way.unit}{becomes}"
        output.print_indented(units.sentence(f"{way.what}: {text}"), "  ")


def show_matches(like: str, matches: Any) -> None:
    """The weights that match another club."""
    from fitlog.views.bench.options import match_text

    output.print_line(f"to match the {like}:")
    for each in matches:
        output.print_indented(match_text(each), "  ")


def show_builds(sheet: "Sheet", result: "SolverResult") -> None:
    """The nearest builds from stock, what each costs, and what is missing."""
    from fitlog.views.bench.builds import cost_text, further_assumptions

    answer, units = result.answer, sheet.work.units
    output.print_line(f"from stock: {answer.combinations} builds looked at, {answer.within} within tolerance")
    rows = []
    for place, (build, cost) in enumerate(zip(answer.builds, result.costs, strict=True), 1):
        chosen = build.choice
        trim = f"tip {units.in_words('length_in', chosen.tip_trim_in)}" if chosen.tip_trim_in else ""
        length = (
            f"{units.in_words('length_in', chosen.length_in)} long"
            if chosen.length_in not in (None, sheet.work.setup.length_in)
            else ""
        )
        weights = (chosen.head_weight, chosen.tip_weight, chosen.butt_weight)
        parts = ", ".join(filter(None, (chosen.head, chosen.shaft, trim, length, chosen.grip, *weights)))
        rows.append((f"{place}.", build.sums.swing_weight, f"{build.sums.mass_g:.1f} g", parts, cost_text(cost)))
    output.print_table(rows)
    if new := further_assumptions(sheet, answer.builds):
        output.print_indented("also assumed, for some of them: " + ", ".join(new), "  ")
    for each in (*filter(None, [answer.advice]), *result.notes, *answer.left_out):
        output.print_indented(each, "  ")
