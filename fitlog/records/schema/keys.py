"""Keys as people write them.

They tell which known key an unknown one most likely means, and which keys are one's own.
"""

import re
from functools import lru_cache

from fitlog.records.errors import UsageError
from fitlog.records.schema.fields import OWN, Sub, format_choice, kinds_of
from fitlog.records.schema.keyed_rows import kind_in_row, record_of_rows, row_key
from fitlog.records.wording.units import unit_of_key

MOST_SUGGESTIONS = 3
_CLOSE = 0.8
_ENDINGS = frozenset((
    "cm", "mm", "m", "in", "inch", "inches", "g", "gram", "grams", "oz", "kg", "deg", "degrees", "degree", "yd",
    "yards", "mph", "kmh", "angle",
))  # fmt: skip
# what people say for a step of a key; the values are the words of our keys
_OTHER_WORDS = {
    "weight": ("mass",),
    "mass": ("weights",),
    "tipping": ("tip_trim",),
    "trim": ("tip_trim", "butt_trim"),
    "tip": ("tip_trim",),
    "butt": ("butt_trim",),
    "sw": ("swing_weight",),
    "swingweight": ("swing_weight",),
    "cpm": ("frequency",),
    "freq": ("frequency",),
    "moi": ("inertia",),
    "ct": ("ct",),
    "wraps": ("tape_wraps",),
    "tape": ("tape_wraps",),
    "angle": ("lie", "loft"),
    "wrap": ("tape_wraps",),
    "comment": ("notes",),
    "comments": ("notes",),
    "note": ("notes",),
    "setting": ("position",),
    "brand": ("model",),
    "maker": ("model",),
    "make": ("model",),
    "name": ("model",),
}


@lru_cache(16)
def known_keys(*records: type) -> tuple[str, ...]:
    """Every dotted key of these records that holds a value, in their order."""
    out: list[str] = []
    for record in records:
        for key, kind in kinds_of(record).items():
            out += [f"{key}.{inner}" for inner in known_keys(kind.record)] if isinstance(kind, Sub) else [key]
    return tuple(dict.fromkeys(out))


@lru_cache(256)
def similar_keys(key: str, *records: type) -> tuple[str, ...]:
    """The known keys that an unknown dotted key resembles, the likeliest first.

    There are none where it is like no other.

    >>> from fitlog.records.models.setup import Setup
    >>> [similar_keys(key, Setup)[0] for key in ("length", "length_cm", "lenght_in", "head.weight", "tip_trim_in")]
    ['length_in', 'length_in', 'length_in', 'head.mass_g', 'shaft.tip_trim_in']
    >>> similar_keys("paint_code", Setup)
    ()
    """
    known = known_keys(*records)
    if key in known or key.partition(".")[0] == OWN:
        return ()
    *way, last = _simple(key).split(".")
    bare = _bare(last)
    wanted = {bare, *_OTHER_WORDS.get(bare, ())}
    same = [each for each in known if _bare(each.rpartition(".")[2]) in wanted]
    there = [each for each in known if way and each.split(".")[:-1] == way]
    if not any(each in there for each in same):
        same = [each for each in there if _bare(each).endswith(f"_{bare}")] or same
    if not same and not way:
        inner = [each for each in known if each.startswith(f"{bare}.")]
        same = sorted(inner, key=lambda each: not each.endswith(".model"))
    found = same or _alike(_simple(key), bare, known)
    here = [each for each in found if each.split(".")[:-1] == way]
    return tuple(here or found)[:MOST_SUGGESTIONS]


def _simple(key: str) -> str:
    return re.sub(r"[\s-]+", "_", key.casefold())


def _bare(step: str) -> str:
    """A step of a key without its unit.

    >>> _bare("length_cm"), _bare("tip_trim_in"), _bare("grip")
    ('length', 'tip_trim', 'grip')
    """
    unit = unit_of_key(step)
    if unit:
        return step[: -len(unit) - 1]
    head, _, tail = step.rpartition("_")
    return head if head and tail in _ENDINGS else step


def _alike(key: str, bare: str, keys: tuple[str, ...]) -> list[str]:
    from difflib import get_close_matches

    spelled: dict[str, list[str]] = {}
    for each in keys:
        last = each.rpartition(".")[2]
        for form in (each, last, _bare(last)):
            if len(form) > 3:
                spelled.setdefault(form, []).append(each)
    near = get_close_matches(key, list(spelled), n=MOST_SUGGESTIONS, cutoff=_CLOSE)
    near += get_close_matches(bare, list(spelled), n=MOST_SUGGESTIONS, cutoff=_CLOSE) if len(bare) > 3 else []
    by_depth = (sorted(spelled[form], key=lambda each: each.count(".")) for form in near)
    return list(dict.fromkeys(each for group in by_depth for each in group))


def check_key(key: str, *records: type) -> None:
    """Raise UsageError for a key neither known nor a person's own (``own.``).

    >>> from fitlog.records.models.setup import Setup
    >>> check_key("own.paint_code", Setup)
    """
    first, _, rest = key.partition(".")
    if key in known_keys(*records) or (first == OWN and rest):
        return
    if any(kind_in_row(key, record) for record in records):
        return
    if (row := row_key(key)) and (
        inner := next(filter(None, (record_of_rows(row.rows, each) for each in records)), None)
    ):
        meant = tuple(f"{row.rows}.{row.name}.{each}" for each in similar_keys(row.key, inner))
        all_of_row = tuple(f"{row.rows}.{row.name}.{each}" for each in known_keys(inner))
        raise UsageError(f"there is no key '{key}'", do=f"write {format_choice(meant or all_of_row)}")
    meant = similar_keys(key, *records)
    if meant:
        raise UsageError(
            f"there is no key '{key}'", do=f"write {format_choice(meant)}; a key of your own is {OWN}.{key}"
        )
    raise UsageError(f"there is no key '{key}'", do=f"to keep one of your own, write {OWN}.{key}")
