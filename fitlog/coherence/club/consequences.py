"""What else changes in a club when one of its values changes.

A head, shaft or grip brings its own data and takes the old one's away; a sleeve turned to another position moves
loft, lie and face together; measurements of the old setup no longer hold. Nothing that is not known is guessed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple

from fitlog.coherence.club.complete import SHELF_OF
from fitlog.records.errors import FitlogError, Refusal
from fitlog.records.models.part import Part, Setting
from fitlog.records.models.setup import Head
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.words import NOT_KNOWN, Change, format_change, format_label, format_value

Values = dict[str, Any]
FindPart = Callable[[str, str], "tuple[str, Part] | None"]  # shelf and a part's id or model → id and part

# What was done to this one club, and is done again to the next component.
DONE_TO_CLUB = frozenset({"tip_trim_in", "butt_trim_in", "tape_wraps", "tape_wrap_g", "rib"})
# Values of the club that the head alone decides.
_OF_HEAD = ("loft_deg", "loft_as", "lie_deg", "face_deg", "bounce_deg", "grind", "sole_marks")
_NO_SLEEVE = "no sleeve is known of this head"
_SLEEVE_DO = "measure in this position, or add the positions to the head's part"
_SLEEVE_KEYS = ("loft_deg", "lie_deg", "face_deg", "length_in")  # by a sleeve position
_READINGS = "readings."
# Changing one of these alone makes no other club of it.
_WORDS = frozenset({"notes", "start_line", "roll", "swing_weight", "aim", "loft_as"})
_PLACE_KEYS = frozenset({"slot", "id", "kind", "carried", "standing", "since", "evidence"})


class Consequence(NamedTuple):
    """A value that follows.

    It has its key, what it was, what it becomes (None: not known), and where that is from.
    """

    key: str
    old: Any
    new: Any
    origin: str


class Consequences(NamedTuple):
    """All values to set (None: take away), those not asked for, and what to say."""

    values: Values
    effects: tuple[Consequence, ...] = ()
    notes: tuple[str, ...] = ()


def consequences(before: Mapping[str, Any], changes: Mapping[str, Any], find: FindPart) -> Consequences:
    """The values asked for together with all that follows from them.

    What is asked for always stands.

    before: the club's values by dotted key, ``readings.…`` among them; changes: the values to set, None to take one
    away; find: gives id and part for a shelf and an id or model, None where none fits or several do.
    Raises Refusal for a part id that is not in stock.

    >>> from fitlog.records.models.part import read_part
    >>> settings = [{"position": "mid", "loft_deg": 0.0}, {"position": "up", "loft_deg": 1.0}]
    >>> rook = read_part("heads", {"model": "Rook", "loft_deg": 10.5, "setting": settings}, [])
    >>> club = {"head.part": "rook", "sleeve.position": "mid", "loft_deg": 10.5}
    >>> consequences(club, {"sleeve.position": "up"}, lambda shelf, wanted: ("rook", rook)).values
    {'sleeve.position': 'up', 'loft_deg': 11.5}
    """
    changes = dict(changes)
    derived: dict[str, tuple[Any, str]] = {}
    notes: list[str] = []
    exchanged = [each for each in SHELF_OF if _exchange(each, before, changes, derived, notes, find)]
    if "head" in exchanged:
        _follow_head(before, changes, derived, notes, find)
    elif _changes(before, changes, "sleeve.position"):
        _follow_position(before, changes, derived, notes, find)
    elif _changes(before, changes, "sleeve.turn_deg"):
        _follow_turn(before, changes, derived, notes)
    for key, (value, _) in list(derived.items()):
        if key in changes or key.partition(".")[0] in changes or value == before.get(key):
            del derived[key]
    if exchanged or any(_is_other_club(key, before, {**derived, **changes}) for key in (*derived, *changes)):
        _set_readings_aside(before, changes, derived, notes)
    followed = tuple(Consequence(key, before.get(key), value, origin) for key, (value, origin) in derived.items())
    return Consequences({**changes, **{each.key: each.new for each in followed}}, followed, tuple(notes))


def describe_consequences(consequences: Consequences) -> list[str]:
    """Each value that follows, with where it comes from, and what remains to be said.

    One line each; what a head without a sleeve leaves open is one line.

    >>> describe_consequences(Consequences({}, (Consequence("loft_deg", 10.5, 11.5, "by the head's table"),), ()))
    ["loft 10.5 → 11.5° (by the head's table)"]
    """
    lines = []
    lost = [f"{format_label(each.key)} {format_value(each.key, each.old)}" for each in _sleeveless(consequences)]
    if lost:
        lines.append(f"{_NO_SLEEVE}: {', '.join(lost)} → {NOT_KNOWN}; {_SLEEVE_DO}")
    for each in consequences.effects:
        if each.key.startswith(_READINGS) or each.origin == _NO_SLEEVE:
            continue
        change = format_change(Change(each.key, each.old, each.new))
        lines.append(f"{change} ({each.origin})")
    return [*lines, *consequences.notes]


def _sleeveless(consequences: Consequences) -> list[Consequence]:
    return [each for each in consequences.effects if each.origin == _NO_SLEEVE]


def _changes(before: Mapping[str, Any], changes: Mapping[str, Any], key: str) -> bool:
    return key in changes and changes[key] != before.get(key)


def _exchange(
    component: str,
    before: Mapping[str, Any],
    changes: Values,
    values: dict[str, tuple[Any, str]],
    notes: list[str],
    find: FindPart,
) -> bool:
    """Let a new component bring its data; returns whether it is another one."""
    part_key, model_key = f"{component}.part", f"{component}.model"
    shelf = SHELF_OF[component]
    if _changes(before, changes, part_key) and changes[part_key] is not None:
        found = find(shelf, changes[part_key])
        if found is None or found[0] != changes[part_key]:
            raise Refusal(
                f"there is no part '{changes[part_key]}' in parts/{shelf}",
                where=part_key,
                do=f"name one that is there, or write the {component}'s name as {model_key}",
            )
    elif _changes(before, changes, model_key) and changes.get(part_key) is None:
        found = find(shelf, changes[model_key]) if changes[model_key] and part_key not in changes else None
    else:
        return False
    for key in before:
        if key.startswith(component + ".") and key.partition(".")[2] not in DONE_TO_CLUB:
            values[key] = (None, f"of the old {component}")
    if found is None:
        if f"{component}.mass_g" in before and f"{component}.mass_g" not in changes:
            notes.append(f"the weight of the new {component} is not known: weigh it, or take a part from stock")
        return True
    name, part = found
    # what the file states is stated anew; what it leaves open is filled in from the part wherever it is read
    for key, value in part.component._asdict().items():
        dotted = f"{component}.{key}"
        if value is not None and key not in DONE_TO_CLUB and dotted in before:
            values[dotted] = (value, f"from parts/{shelf}/{name}")
    values[part_key] = (name, f"parts/{shelf}/{name}")
    if part_key not in changes:  # the model was typed, and the part says how it is written
        changes[model_key] = part.component.model or name
    return True


def _setting_at(part: Part | None, position: Any) -> Setting | None:
    return next((each for each in part.stock.setting if each.position == position), None) if part else None


def _head_part(before: Mapping[str, Any], find: FindPart) -> Part | None:
    part = before.get("head.part")
    try:
        found = find("heads", part) if part else None
    except FitlogError:  # a broken part counts as not there; the check of the workspace names it
        return None
    return found[1] if found else None


def _follow_head(
    before: Mapping[str, Any],
    changes: Mapping[str, Any],
    values: dict[str, tuple[Any, str]],
    notes: list[str],
    find: FindPart,
) -> None:
    """Take away what the old head knew; bring the new one's loft and lie.

    Both are those in the position that the sleeve stands in.
    """
    _forget(_OF_HEAD, before, values, "of the old head")
    after = {**before, **{key: value for key, (value, _) in values.items()}, **changes}
    part = _head_part(after, find)
    position = after.get("sleeve.position")
    setting = _setting_at(part, position)
    if position is not None and setting is None and "sleeve.position" not in changes:
        values["sleeve.position"] = (None, "of the old head")
        notes.append(f"the new head's part has no sleeve position '{position}': choose its position again")
        return
    if position is not None and setting is None:
        notes.append(_ask_for(position))
        return
    base = part.component if part and isinstance(part.component, Head) else Head()
    for key in ("loft_deg", "lie_deg"):
        value, change = getattr(base, key), getattr(setting, key) if setting else 0.0
        if value is not None and change is not None and (key in before or setting):
            origin = f"the new head's, in position {position}" if setting else "the new head's"
            values[key] = (round(value + change, 3), origin)


def _follow_position(
    before: Mapping[str, Any],
    changes: Mapping[str, Any],
    values: dict[str, tuple[Any, str]],
    notes: list[str],
    find: FindPart,
) -> None:
    """Move loft, lie and face from the old position's values to the new one's.

    Length too, where the table has it.
    """
    old, new = before.get("sleeve.position"), changes["sleeve.position"]
    part = _head_part(before, find)
    was, now = _setting_at(part, old), _setting_at(part, new)
    if new is not None and old is None and not (part and part.stock.setting):
        _forget(_SLEEVE_KEYS[:3], before, values, _NO_SLEEVE)
        if not any(key in before for key in _SLEEVE_KEYS[:3]):
            notes.append(f"{_NO_SLEEVE}: {_SLEEVE_DO}")
        return
    if now is None or (old is not None and was is None):
        _forget(_SLEEVE_KEYS[:3], before, values, "not known in this sleeve position")
        notes.append(_ask_for(old if now is not None else new))
        return
    base = part.component if part else None
    unknown = []
    for key in _SLEEVE_KEYS:
        change, start = getattr(now, key), getattr(was, key) if was else None
        if key == "length_in" and change is None and start is None:
            continue
        head = getattr(base, key, None)
        if change is not None and start is not None and key in before:
            values[key] = (round(before[key] - start + change, 3), f"by the head's table, position {new}")
        elif change is not None and head is not None:
            values[key] = (round(head + change, 3), f"by the head's table, position {new}")
        elif key in before:
            values[key] = (None, "not known in this sleeve position")
            unknown.append(format_label(key))
    if unknown:
        notes.append(f"the head's table does not say how {', '.join(unknown)} moves: measure it in the new position")


def _forget(keys: Sequence[str], before: Mapping[str, Any], values: dict[str, tuple[Any, str]], why: str) -> None:
    """Make the values that the club has of these keys not known."""
    for key in keys:
        if key in before:
            values[key] = (None, why)


def _ask_for(position: Any) -> str:
    return (
        f"loft, lie and face in sleeve position '{position}' are not known: measure them, "
        "or add the position to the head's part"
    )


def _follow_turn(
    before: Mapping[str, Any], changes: Mapping[str, Any], values: dict[str, tuple[Any, str]], notes: list[str]
) -> None:
    """Turn a bent sleeve by exact rotation from the head's own loft and lie.

    The rotation is that of ``bench.components.sleeve``.
    """
    from fitlog.bench.components.sleeve import HELD, position

    bend = changes.get("sleeve.bend_deg", before.get("sleeve.bend_deg"))
    loft, lie = before.get("head.loft_deg"), before.get("head.lie_deg")
    turn = changes["sleeve.turn_deg"]
    if bend is None or loft is None or lie is None or turn is None:
        _forget(_SLEEVE_KEYS[:3], before, values, "not known in this sleeve position")
        notes.append(
            "the new position needs the sleeve's bend and the head's own loft and lie: give them, or measure the club"
        )
        return
    convention = changes.get("loft_as", before.get("loft_as")) or HELD
    change = getattr(position(loft, lie, bend, turn), convention)
    origin = f"by the sleeve's bend of {bend:g}°, {convention}"
    values["loft_deg"] = (round(loft + change.loft_deg, 2), origin)
    values["lie_deg"] = (round(lie + change.lie_deg, 2), origin)
    values["face_deg"] = (round(-change.closed_deg, 2) + 0.0, origin)


def _is_other_club(key: str, before: Mapping[str, Any], after: Mapping[str, Any]) -> bool:
    """Whether the club itself is changed: a value it had is another one now.

    A value first noted changes nothing.
    """
    if (
        key in _PLACE_KEYS
        or key.partition(".")[0] in _WORDS
        or key.startswith((_READINGS, "own."))
        or key.endswith((".part", ".model"))
    ):
        return False
    new = after[key][0] if isinstance(after[key], tuple) else after[key]
    return before.get(key) is not None and new != before.get(key)


def _set_readings_aside(
    before: Mapping[str, Any], changes: Mapping[str, Any], values: dict[str, tuple[Any, str]], notes: list[str]
) -> None:
    readings = [key for key in before if key.startswith(_READINGS) and key not in changes]
    for key in readings:
        values[key] = (None, "measured on the old setup")
    held = [key for key in readings if key != _READINGS + "on"]
    if held:
        count = format_count(len(held), "measurement")
        notes.append(f"{count} of the old setup no longer {'holds' if len(held) == 1 else 'hold'}")
