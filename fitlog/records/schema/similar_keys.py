"""What a misspelt key most likely means, of the keys that are known."""

import re

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


def find_similar(key: str, known: tuple[str, ...]) -> tuple[str, ...]:
    """The known keys that an unknown dotted key resembles, the likeliest first.

    There are none where it is like no other.

    >>> find_similar("length_cm", ("length_in", "loft_deg")), find_similar("paint_code", ("length_in",))
    (('length_in',), ())
    """
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
