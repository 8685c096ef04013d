"""The build sheet: parts, cuts, head weight, blanks to fill, cautions."""

from collections.abc import Iterator, Mapping, Sequence

from fitlog.bench.building.cautions import CAUTIONS, DEFERS
from fitlog.bench.measures.points import parse
from fitlog.bench.measures.readings import SHEET_TOLERANCES, sentence
from fitlog.records.errors import UsageError
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import format_number
from fitlog.records.wording.words import format_label, format_value, without_ids
from fitlog.report.document import (
    Blank,
    Blanks,
    Block,
    Bullets,
    Cell,
    Document,
    Facts,
    Heading,
    Page,
    Pair,
    Paragraph,
    Table,
    plain_row,
)
from fitlog.report.sheets.values import club_name, display_name
from fitlog.views.bench.parts import STOCK, measured_values, sheet_values
from fitlog.views.sheets.bag_card import BuildClub, BuildSheet

FOOT = "≈ computed from the components. Tolerances are common practice and the shop's to change."
_COMPONENTS = ("head", "shaft", "grip", "sleeve", "ferrule", "epoxy")
_NOT_A_PART = ("part", "tip_trim_in", "butt_trim_in", "bore_to_ground_in", "insertion_in", "cap_in")
_AIM_UNITS = {"mass_g": "g", "balance_in": "in", "moi_butt_kg_cm2": "kg·cm²"}
_READINGS = (
    ("length_in", "length", "in"),
    ("loft_deg", "loft", "°"),
    ("lie_deg", "lie", "°"),
    ("points", "swing weight", "points"),
    ("mass_g", "weight", "g"),
    ("balance_in", "balance point", "in"),
    ("cpm", "frequency", "cpm"),
)


def document(sheet: BuildSheet, initials: bool = False) -> Document:
    """A page a club; of several clubs the first page shows the set in one table."""
    name = display_name(sheet.player, initials)
    subtitle = f"{name} · {sheet.player.hand}-handed · {sheet.on}"
    cautions: list[Block] = [Heading("Cautions (common practice)"), Bullets(CAUTIONS, "quiet")]
    cautions.append(Paragraph(DEFERS, "quiet"))
    alone = cautions if len(sheet.clubs) == 1 else []  # of a set they stand once, on its first page
    heads = _heads(sheet)
    pages = [_page(club, _name(club, heads), subtitle, alone) for club in sheet.clubs]
    if len(sheet.clubs) > 1:
        pages.insert(
            0,
            Page(
                f"Build: set of {name}",
                sheet.on,
                (*_set_parts(sheet), *_set_cuts(sheet), *cautions),
            ),
        )
    return Document(f"Build: {name}", tuple(pages), FOOT)


_SET_NOTE = "In {} and grams. The target head weight gives the target swing weight with nothing else changed."


def _length_word(sheet: BuildSheet) -> str:
    return "millimetres" if sheet.clubs[0].work.units.unit("length_in") == "mm" else "inches"


def _set_parts(sheet: BuildSheet) -> list[Block]:
    """What to lay out before the first cut."""
    heads, rows = _heads(sheet), []
    for club in sheet.clubs:
        setup, units, added = club.sheet.components.setup, club.work.units, club.work.table.get("weights")
        shaft = " ".join(filter(None, (setup.shaft.model, setup.shaft.flex)))
        wraps = _format_named("grip", "tape_wraps", setup.grip.tape_wraps, units) if setup.grip.tape_wraps else ""
        grip = ", ".join(filter(None, (setup.grip.model, wraps)))
        names = (setup.head.model, shaft, grip, format_value("weights", added, units=units) if added else "")
        rows.append(plain_row(_name(club, heads), *(each or "–" for each in names)))
    return [Heading("Parts to lay out"), Table(("", "Head", "Shaft", "Grip", "Weights"), tuple(rows), stacks=True)]


def _set_cuts(sheet: BuildSheet) -> list[Block]:
    note = Paragraph(_SET_NOTE.format(_length_word(sheet)), "quiet")
    return [Heading("Cuts and weights"), _set_table(sheet), note]


def _set_table(sheet: BuildSheet) -> Table:
    heads = ("", "Length", "Tip trim", "Cut shaft", "Butt trim", "Head", "SW", "Target SW", "Head for target")
    rows, of_place = [], _heads(sheet)
    for club in sheet.clubs:
        plan, parts, sums = club.sheet.cut.plan, club.sheet.components.parts, club.sheet.sums
        cuts = (
            (plan.length_in, plan.tip_trim_in, plan.cut_in, plan.butt_trim_in)
            if plan
            else (parts.length_in, None, None, None)
        )
        head = club.head.becomes if club.head else None
        rows.append(
            (
                Cell(_name(club, of_place)),
                *(Cell(_length(each, club)) for each in cuts),
                Cell(_grams(parts.head_mass_g)),
                Cell(sums.swing_weight if sums else "–", computed=True),
                Cell(club.target or "–"),
                Cell(_grams(head), computed=True),
            )
        )
    return Table(heads, tuple(rows), frozenset(range(1, 9)), stacks=True)


def _length(value: float | None, club: BuildClub) -> str:
    """A length without its unit: inches to a thousandth, millimetres to a tenth."""
    if value is None:
        return "–"
    units = club.work.units
    places = 3 if units.unit("length_in") == "in" else 1
    return format_number(round(units.convert("length_in", value), places))


def _grams(value: float | None) -> str:
    return "–" if value is None else f"{value:.1f}"


def _heads(sheet: BuildSheet) -> dict[str, str]:
    return {club.work.place: club.work.setup.head.model or "" for club in sheet.clubs}


def _name(club: BuildClub, heads: Mapping[str, str]) -> str:
    """A bag's club by its slot, with its head where shared; a test by its day."""
    if club.work.place in ("", club.work.slot) or club.work.place.startswith(f"{club.work.slot}#"):
        return club_name(club.work.place, heads) if club.work.place else club.work.slot
    return f"{club.work.slot}, test of {without_ids(club.work.place)}"


def _page(club: BuildClub, name: str, subtitle: str, cautions: Sequence[Block]) -> Page:
    left: list[Block] = [Heading("Cut plan"), *_cut_blocks(club)]
    right: list[Block] = [Heading("Weight"), *_weight(club)]
    blocks: list[Block] = [Heading("Parts"), _parts(club), Pair(tuple(left), tuple(right))]
    blocks += [
        Heading("Measurements of the built club"),
        Blanks(tuple(_blanks(club))),
        *_target_note(club),
        *_mismatches(club),
    ]
    if notes := (*club.sheet.notes, *_loft_note(club)):
        blocks += [Heading("Notes"), Bullets(notes)]
    blocks += cautions
    return Page(f"Build: {name}", subtitle, tuple(blocks))


def _loft_note(club: BuildClub) -> tuple[str, ...]:
    """How an adjustable club's loft is held: soled is another number than held."""
    setup = club.sheet.components.setup
    if not any(setup.sleeve):
        return ()
    how = f"stated {setup.loft_as}" if setup.loft_as else "not stated as held, squared or soled"
    return (f"loft is {how}; face angle is open +, closed −",)


def _parts(club: BuildClub) -> Table:
    """Each component with model and values; what a part's file filled in says so."""
    table = club.sheet.components.setup
    stock = {value.key for value in club.sheet.values if value.mark == STOCK}
    rows = []
    for name in _COMPONENTS:
        record = getattr(table, name)._asdict()
        details = [
            _format_named(name, key, value, club.work.units) + (" (stock)" if f"{name}.{key}" in stock else "")
            for key, value in record.items()
            if value is not None and key not in ("model", *_NOT_A_PART)
        ]
        if record.get("model") or details:
            rows.append(plain_row(name, str(record.get("model") or "–"), "; ".join(details)))
    if club.work.table.get("weights"):
        rows.append(
            plain_row("weights", "–", format_value("weights", club.work.table["weights"], units=club.work.units))
        )
    return Table(("", "Model", "As it is"), tuple(rows), stacks=True)


def _format_named(component: str, key: str, value: object, units: DisplayUnits) -> str:
    """A value with its name, where it does not say itself what it is."""
    if isinstance(value, float) and units.unit(key) == "mm":
        text = units.format(key, value)
    else:
        text = format_value(f"{component}.{key}", value)
    bare = _short_label(component, key)
    return text if key == "flex" or text.startswith(bare) else f"{bare} {text}"


def _short_label(component: str, key: str) -> str:
    """A value's name without its component's, which stands before it in the row."""
    return format_label(f"{component}.{key}").removeprefix(f"{component} ")


def _cut_blocks(club: BuildClub) -> list[Block]:
    cut = club.sheet.cut
    if cut.plan is None:
        return [Paragraph(f"No cut plan: {cut.missing}.", "open")]
    plan, unit = cut.plan, club.work.units.unit("length_in")
    values = (
        ("Playing length", "length", plan.length_in),
        ("Raw blank", "raw blank", plan.raw_in),
        ("Tip trim", "tip trim", plan.tip_trim_in),
        ("Cut shaft", "", plan.cut_in),
        ("Butt trim", "", plan.butt_trim_in),
        ("Insertion depth", "insertion depth", plan.insertion_in),
        ("Bore to ground", "bore to ground", plan.bore_to_ground_in),
        ("Grip cap", "cap", plan.cap_in),
    )
    facts = [
        (
            title,
            f"{_length(value, club)} {unit}"
            + (" (assumed)" if f"{name} {club.work.units.lengths(value)}" in cut.assumed else ""),
        )
        for title, name, value in values
    ]
    if plan.parallel_left_in is not None:
        facts.append(("Parallel section left", f"{_length(plan.parallel_left_in, club)} {unit}"))
    warned = [Bullets(cut.warnings, "warn")] if cut.warnings else []
    return [Facts(tuple(facts)), Bullets(cut.steps), *warned]


def _capital(label: str) -> str:
    return label[:1].upper() + label[1:]


def _weight(club: BuildClub) -> list[Block]:
    sums = club.sheet.sums
    target = [("Target swing weight", f"{club.target}, {club.target_from}" if club.target else "none is set")]
    target += [
        (_capital(format_label(f"aim.{key}")), _format_with_unit(value, _AIM_UNITS[key], club.work.units))
        for key, value in club.sheet.components.setup.aim._asdict().items()
        if value is not None
    ]
    if sums is None:
        return [Facts(tuple(target)), Paragraph(f"Not computed: {club.sheet.missing}.", "open")]
    facts = [
        *target,
        ("Swing weight, computed", f"≈ {sums.swing_weight}"),
        ("Head now", f"{_grams(club.sheet.components.parts.head_mass_g)} g"),
        ("Head for the target", _head(club)),
        ("Weight", f"≈ {sums.mass_g:.1f} g"),
        ("Balance point", f"≈ {club.work.units.lengths(sums.balance_in, 2)} from the butt"),
        ("MOI about the butt", f"≈ {sums.moi_butt_kg_cm2:.0f} kg·cm²"),
    ]
    assumed = [Paragraph("Assumed: " + "; ".join(club.sheet.assumed), "quiet")] if club.sheet.assumed else []
    return [Facts(tuple(facts)), *assumed]


def _head(club: BuildClub) -> str:
    way = club.head
    if way is None or way.change is None or way.becomes is None:
        return way.refusal if way else "no target, so none is worked out"
    return f"≈ {way.becomes:.1f} g ({way.change:+.1f} g)"


def _blanks(club: BuildClub) -> Iterator[Blank]:
    """A place for each reading: the sheet's aim, else computed, else open."""
    wanted = sheet_values(club.sheet.components.setup)
    sums, read, target = club.target_sums or club.sheet.sums, club.work.readings, _points(club.target)
    computed = {"points": sums.points, "mass_g": sums.mass_g, "balance_in": sums.balance_in} if sums else {}
    before = measured_values(read)
    units = club.work.units
    for key, name, unit in _READINGS:
        text, of_sums = _target_text(key, wanted.get(key), computed.get(key), club, target)
        last = read.swing_weight if key == "points" else _format_with_unit(before.get(key), unit, units)
        yield Blank(name, text, f"± {_format_with_unit(SHEET_TOLERANCES[key], unit, units)}", last or "", of_sums)


def _target_text(
    key: str, stated: float | None, computed: float | None, club: BuildClub, target: float | None
) -> tuple[str, bool]:
    if key == "points":
        if target is not None:
            return club.target, False
        return (club.sheet.sums.swing_weight, True) if club.sheet.sums else ("–", False)
    unit = {name: unit for name, _, unit in _READINGS}[key]
    if stated is not None:
        return _format_with_unit(stated, unit, club.work.units), False
    return (
        (_format_with_unit(round(computed, 2 if unit == "in" else 1), unit, club.work.units), True)
        if computed is not None
        else ("–", False)
    )


def _points(target: str) -> float | None:
    try:
        return parse(target)
    except UsageError:
        return None


def _format_with_unit(value: float | None, unit: str, units: DisplayUnits) -> str:
    if value is None:
        return ""
    return units.format("length_in", value) if unit == "in" else f"{format_number(value)}{_unit(unit)}"


def _unit(unit: str) -> str:
    return unit if unit == "°" else f" {unit}"


def _target_note(club: BuildClub) -> list[Block]:
    if club.target_sums is None:
        return []
    return [Paragraph("Weight and balance point are those with the head for the target.", "quiet")]


def _mismatches(club: BuildClub) -> list[Block]:
    """The readings that do not fit the sheet as it stands."""
    mismatches = tuple(club.work.units.sentence(sentence(each)) for each in club.sheet.differences if each.disagrees)
    return [Bullets(mismatches, "warn")] if mismatches else []
