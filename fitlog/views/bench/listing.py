"""The bench's editable list: every value with its mark, and the targets."""

from contextlib import suppress
from typing import Any, NamedTuple, cast

from fitlog.bench.components.masses import Sums
from fitlog.bench.components.stock import Target
from fitlog.bench.measures.points import parse
from fitlog.records.entry.values import DECIMALS
from fitlog.records.entry.weights import format_weights
from fitlog.records.errors import FitlogError, UsageError
from fitlog.records.models.bag import Readings
from fitlog.records.models.setup import Aims, kind_at
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.schema.fields import Number
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import MM_PER_IN, format_number, unit_of_key, unit_symbol
from fitlog.records.wording.words import format_label, format_value
from fitlog.saving.desk import Desk
from fitlog.views.bench.parts import ASSUMED, COMPUTED, MEASURED, STOCK, WRITTEN, assumed_values
from fitlog.views.bench.setup import TEST, Work, change, lay_out, target_swing_weight, with_values
from fitlog.views.bench.sheet import Sheet, work_out
from fitlog.views.bench.stock_solver import CHOICES, USUAL_KINDS

AIM = "aim."
IN_FILES = DisplayUnits()
_INERTIA = cast(Number, kind_at("aim.moi_butt_kg_cm2"))
_LENGTH = cast(Number, kind_at("length_in"))
_SETUP_KEYS = (
    "length_in", "head.mass_g", "weights", "shaft.mass_g", "shaft.tip_trim_in", "shaft.raw_length_in",
    "shaft.balance_in", "grip.mass_g", "grip.tape_wraps", "grip.length_in", "grip.cap_in", "sleeve.position",
    "sleeve.mass_g", "head.balance_in", "head.bore_to_ground_in", "head.insertion_in", "ferrule.mass_g",
    "epoxy.mass_g", "loft_deg", "lie_deg", "head.part", "shaft.part", "grip.part", "shaft.tip", "shaft.mass_taper",
    "grip.balance_in", "grip.tape_wrap_g", "grip.base_tape_g", "head.cg_height_in", "head.cg_toe_in",
)  # fmt: skip
_READING_KEYS = tuple(f"readings.{key}" for key in Readings._fields if key not in ("on", "face_deg"))
_AIMS = {
    "swing_weight": "target: swing weight", "mass_g": "target: weight", "moi_butt_kg_cm2": "target: MOI",
    "balance_in": "target: balance", "like": "target: match club", "vary": "stock: may change",
    "lengths": "stock: lengths",
}  # fmt: skip
_WIDE_UNITS = {"moi_butt_kg_cm2": "kg·cm²"}  # they stand with the value, too wide for the list's column
# How far one press of an arrow moves a value.
_STEPS = {"in": 0.25, "g": 1.0, "deg": 0.5, "cpm": 1.0, "": 1.0}
_FINE = {
    "head.balance_in": 0.0625, "head.bore_to_ground_in": 0.125, "head.insertion_in": 0.125, "shaft.mass_taper": 0.05,
    "grip.cap_in": 0.0625, "grip.tape_wrap_g": 0.1, "ferrule.mass_g": 0.5, "epoxy.mass_g": 0.5,
    "readings.balance_in": 0.0625, "readings.length_in": 0.0625, "aim.balance_in": 0.0625,
    "aim.moi_butt_kg_cm2": 10.0,
}  # fmt: skip


class Aim(NamedTuple):
    """What the bench works towards, and what may vary for it.

    Swing weight, mass, inertia, balance point or another club; with the playing lengths, in inches, that are
    allowed (none: as it is).
    """

    swing_weight: str = ""
    mass_g: float | None = None
    balance_in: float | None = None
    moi_butt_kg_cm2: float | None = None
    like: str = ""
    vary: frozenset[str] = USUAL_KINDS
    lengths: tuple[float, ...] = ()
    reference: Sums | None = None

    @property
    def points(self) -> float | None:
        """The target swing weight, above A0; the other club's where none is named."""
        if self.swing_weight:
            return parse(self.swing_weight)
        return self.reference.points if self.reference else None

    @property
    def target(self) -> Target:
        """What the solver searches for; the other club's inertia where none is named."""
        inertia = self.moi_butt_kg_cm2
        if inertia is None and self.reference:
            inertia = self.reference.moi_butt_kg_cm2
        return Target(self.points, self.mass_g, inertia, self.balance_in)


class BenchLayout(NamedTuple):
    """What lies on the bench, and its aim; ``carry_yd`` is wanted of the slot."""

    work: Work
    aim: Aim
    carry_yd: float | None = None


class Field(NamedTuple):
    """One value of the list.

    ``text`` is what a person would type for it; ``mark`` how it is known; ``was`` what it was before it was changed
    on the bench, empty where it was not.
    """

    key: str
    name: str
    display: str
    text: str
    unit: str
    mark: str
    source: str = ""
    was: str = ""


def lay(desk: Desk, work: Work) -> BenchLayout:
    """The work with what its player wants of the slot.

    A test is held against the bag's club of its slot.
    """
    player = desk.workspace.player(work.player) if work.player else None
    wanted = player.target_for(work.slot) if player else None
    aim = Aim(target_swing_weight(work, player)[0], *work.setup.aim)
    if work.origin == TEST:
        with suppress(FitlogError):  # the slot may have no club yet, or one whose components are not known
            aim = _like(desk, work, aim, work.slot)
    return BenchLayout(work, aim, wanted.carry_yd if wanted else None)


def _like(desk: Desk, work: Work, aim: Aim, like: str) -> Aim:
    if not like:
        return aim._replace(like="", reference=None)
    if not work.player:
        raise UsageError("this sheet belongs to no player", do="open the bench from a player's bag")
    other = work_out(lay_out(desk, work.player, like))
    if other.sums is None:
        raise UsageError(f"the {like} cannot be matched: {other.missing}", do="complete its values first")
    return aim._replace(like=like, reference=other.sums)


def retype(desk: Desk, layout: BenchLayout, key: str, text: str) -> BenchLayout:
    """The bench with one value typed anew; an empty text takes it away.

    Raises Refusal or UsageError for a text that the value cannot be.
    """
    if not key.startswith(AIM):
        return layout._replace(
            work=change(desk, layout.work, key, layout.work.units.with_display_unit(key, text.strip()))
        )
    name, text, aim = key.removeprefix(AIM), text.strip(), layout.aim
    if name == "like":
        return layout._replace(aim=_like(desk, layout.work, aim, text))
    if name == "vary":
        return layout._replace(aim=aim._replace(vary=choices_of(text)))
    if name == "lengths":
        return layout._replace(aim=aim._replace(lengths=lengths_of(text, layout.work.units)))
    if name == "swing_weight":
        return _set_swing_weight_aim(desk, layout, text)
    value = _read_aim(layout, name, text)
    work = with_values(desk, layout.work, {key: value})
    aims: dict[str, Any] = {name: value}
    return layout._replace(work=work, aim=aim._replace(**aims))


def _read_aim(layout: BenchLayout, name: str, text: str) -> float | None:
    """A target weight, MOI or balance point, kept with the setup; None for no text."""
    now = getattr(layout.aim, name)
    if name == "moi_butt_kg_cm2":
        return _inertia(text, now)
    from fitlog.workspace.assignments import UNSET, typed_value

    text_with_unit = layout.work.units.with_display_unit(name, text)
    value: float | None = typed_value(name, text_with_unit, Aims, now or UNSET)
    return value


def _set_swing_weight_aim(desk: Desk, layout: BenchLayout, text: str) -> BenchLayout:
    """Aim at a swing weight, kept with the setup; an empty text: the player's."""
    from fitlog.records.entry.values import read_swing_weight

    asked = read_swing_weight(text, layout.aim.swing_weight or None) if text else ""
    work = with_values(desk, layout.work, {"swing_weight": asked or None})
    player = desk.workspace.player(work.player) if work.player else None
    return layout._replace(work=work, aim=layout.aim._replace(swing_weight=target_swing_weight(work, player)[0]))


def _inertia(text: str, now: float | None) -> float | None:
    from fitlog.bench.bounds import validate
    from fitlog.records.entry.values import read_number

    if not text:
        return None
    value = read_number(text, "moi_butt_kg_cm2", _INERTIA, now)
    return validate(value, _INERTIA.label, "kg·cm²", (_INERTIA.low, _INERTIA.high))


def choices_of(text: str) -> frozenset[str]:
    """What may be varied, from words such as ``heads, tip weights``, or their starts.

    Raises UsageError for what is not a part of the search.

    >>> sorted(choices_of("heads, tip")), sorted(choices_of(""))
    (['heads', 'tip weights'], [])
    """
    names = [each.strip().casefold() for each in text.split(",") if each.strip()]
    found = {choice for name in names for choice in CHOICES if choice.startswith(name)}
    if bad := [name for name in names if not any(choice.startswith(name) for choice in CHOICES)]:
        raise UsageError(f"'{bad[0]}' is not a part of the search", do="write some of " + ", ".join(CHOICES))
    return frozenset(found)


def lengths_of(text: str, units: DisplayUnits = IN_FILES) -> tuple[float, ...]:
    """Playing lengths in inches from ``44.75, 45``; bare ones in the unit shown.

    Raises UsageError for what is no number, Refusal for a length out of range.

    >>> lengths_of("44.75, 1143 mm"), lengths_of("")
    ((44.75, 45.0), ())
    """
    from fitlog.bench.bounds import bounds_of, validate
    from fitlog.records.entry.values import parse_number

    found = []
    for each in filter(None, (part.strip() for part in text.split(","))):
        try:
            value = parse_number(units.with_display_unit("length_in", each), "length_in", _LENGTH).value
        except FitlogError:
            raise UsageError(f"'{each}' is not a length", do="write inches or mm, such as 44.75, 1143 mm") from None
        found.append(validate(round(value, DECIMALS), "playing length", "in", bounds_of("length_in")))
    return tuple(dict.fromkeys(found))


def fields(layout: BenchLayout, sheet: Sheet) -> tuple[Field, ...]:
    """Every value that the bench works with: aims, the setup, the readings."""
    units = layout.work.units
    return tuple(_in_units(each, units) for each in (*_aims(layout.aim), *_setup(sheet), *_readings(sheet.work)))


def _in_units(field: Field, units: DisplayUnits) -> Field:
    """A length as the workspace shows it, in digits that read back the same."""
    key = field.key.removeprefix(AIM)
    if units.unit(key) == unit_of_key(key):
        return field
    texts = {name: _exact(key, getattr(field, name), units) for name in ("display", "text", "was")}
    return field._replace(**texts, unit=units.symbol(key))


def _exact(key: str, text: str, units: DisplayUnits) -> str:
    number, _, _ = text.partition(" ")
    try:
        return units.exact(key, float(number))
    except ValueError:
        return text


def _aims(aim: Aim) -> list[Field]:
    vary = ", ".join(choice for choice in CHOICES if choice in aim.vary)
    out = []
    for key, name in _AIMS.items():
        texts = {"vary": vary, "lengths": ", ".join(format_number(each) for each in aim.lengths)}
        value = texts[key] if key in texts else getattr(aim, key)
        text = format_number(value) if isinstance(value, float) else value or ""
        wide = _WIDE_UNITS.get(key, "")
        display = f"{text} {wide}".strip() if text else "–"
        unit = "in" if key == "lengths" and text else "" if wide else unit_of_key(key)
        out.append(Field(AIM + key, name, display, text, unit, "asked for" if text else ""))
    return out


def _setup(sheet: Sheet) -> list[Field]:
    work = sheet.work
    table, changed = dict(flatten(work.table)), work.changes
    before = dict(flatten(work.before))
    known = {value.key: value for value in sheet.values}
    assumed = assumed_values(sheet.components.parts, sheet.assembly, known)
    known |= {value.key: value for value in assumed if value.key not in known}
    out = []
    for key in _SETUP_KEYS:
        was = format_value(key, before.get(key)) if key in changed else ""
        if key == "weights":
            text = format_weights(table.get(key) or (), work.units)
            out.append(
                Field(
                    key, format_label(key), text or "–", text, "g" if text else "", WRITTEN if text else "", "", was
                )
            )
        elif key in known:
            value = known[key]
            display = format_number(value.value)
            typed = display if value.mark not in (ASSUMED, COMPUTED) else ""
            out.append(
                Field(key, format_label(key), display, typed, unit_symbol(value.unit), value.mark, value.source, was)
            )
        elif key == "shaft.tip" and key not in table and sheet.components.setup.shaft.tip:
            tip = sheet.components.setup.shaft.tip
            out.append(
                Field(key, format_label(key), tip, tip, "", STOCK, f"parts/shafts/{sheet.work.setup.shaft.part}", was)
            )
        else:
            out.append(_plain(key, format_label(key), table.get(key), WRITTEN, was))
    return out


def _plain(key: str, name: str, value: object, mark: str, was: str) -> Field:
    if value is None:
        return Field(key, name, "–", "", unit_symbol(unit_of_key(key)), "not known", "", was)
    text = format_number(value) if isinstance(value, int | float) else str(value)
    return Field(key, name, text, text, unit_symbol(unit_of_key(key)), mark, "", was)


def _readings(work: Work) -> list[Field]:
    out = []
    for key in _READING_KEYS:
        name = key.partition(".")[2]
        now, old = getattr(work.readings, name), getattr(work.readings_before, name)
        was = format_value(key, old) if now != old else ""
        field = _plain(key, format_label(key), now, MEASURED, was)
        out.append(field._replace(mark="not measured") if now is None else field)
    return out


def nudge(field: Field, by: int) -> str:
    """The value one step up or down, as text to type; empty where it is no number.

    >>> nudge(Field("length_in", "length", "45.25", "45.25", "in", "as written"), 1)
    '45.5'
    """
    try:
        value = float(field.display.split(" ")[0])
    except ValueError:
        return ""
    step = _FINE.get(field.key, _STEPS.get(unit_of_key(field.key), 1.0))
    if field.unit == "mm":
        step = max(round(step * MM_PER_IN), 1.0)
    return format_number(value + by * step)
