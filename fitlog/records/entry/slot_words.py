"""Slots as people write them: ``7 iron``, ``gap wedge``, ``52°``, ``DRIVER``."""

import re
import unicodedata
from typing import NamedTuple

from fitlog.records.errors import UsageError
from fitlog.records.naming.slots import SLOT_FORM, SLOT_PATTERN
from fitlog.records.schema.fields import format_choice

MOST_SUGGESTIONS = 3
_LONGEST = 40  # characters; what is longer is prose
_LONGEST_TEXT = 200
_NUMBERS = {
    "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6",
    "seven": "7", "eight": "8", "nine": "9", "ten": "10", "eleven": "11",
}  # fmt: skip
_LETTERS = {
    **dict.fromkeys(("w", "wood", "woods", "fw", "fairway", "fairwaywood", "fwwood"), "w"),
    **dict.fromkeys(("h", "hy", "hyb", "hybrid", "hybrids"), "h"),
    **dict.fromkeys(("i", "iron", "irons"), "i"),
}
_HIGHEST = {"w": 15, "h": 9, "i": 11}
# one letter is what is stamped on the sole of a set's wedge
_NAMES = {
    "driver": ("driver", "d", "dr", "1w", "1wood"),
    "putter": ("putter", "pt", "put"),
    "pw": ("pw", "p", "pitchingwedge", "pitching", "pitchwedge", "pwedge"),
    "uw": ("uw", "u", "utilitywedge", "uwedge"),
    "aw": ("aw", "a", "approachwedge", "attackwedge", "awedge"),
    "gw": ("gw", "g", "gapwedge", "gap", "gwedge"),
    "sw": ("sw", "s", "sandwedge", "sand", "sandiron", "swedge"),
    "lw": ("lw", "l", "lobwedge", "lob", "lwedge"),
}
_BY_NAME = {name: slot for slot, names in _NAMES.items() for name in names}
_NUMBERED_SLOTS = [
    f"{number}{letter}" for letter, top in _HIGHEST.items() for number in range(1 + (letter == "w"), top + 1)
]
_WEDGE_LOFTS = (40, 79)


class SlotReading(NamedTuple):
    """What a typed slot means.

    ``slot`` is empty where it is not understood; ``near`` then holds the nearest slots, and ``own`` the text as a
    slot of the player's own, empty where no slot can be called so.
    """

    slot: str
    near: tuple[str, ...] = ()
    own: str = ""


def read_slot(text: str) -> SlotReading:
    """Understand a slot as a person types it.

    Spaces, hyphens, case and word order do not matter.

    >>> [read_slot(each).slot for each in ("7 iron", "iron 7", "3 wood", "PW", "gap wedge", "52°", "2 hybrid")]
    ['7i', '7i', '3w', 'pw', 'gw', '52', '2h']
    >>> read_slot("drvier")
    SlotReading(slot='', near=('driver',), own='drvier')
    """
    simple = unicodedata.normalize("NFKC", text).casefold().strip()
    if not simple or len(simple) > _LONGEST:
        return SlotReading("")
    simple = simple.replace("№", "").replace("º", "°")
    words = re.findall(r"[^\W\d_]+|\d+(?:[.,]\d+)?|°", simple)
    left_over = re.sub(r"[^\W\d_]+|\d+(?:[.,]\d+)?|°|[\s\-_#./]", "", simple)
    words = [_NUMBERS.get(word, word) for word in words if word not in ("no", "nr", "number")]
    slot = "" if left_over else _match_slot(words)
    if slot:
        return SlotReading(slot)
    own = simple if re.fullmatch(SLOT_PATTERN, simple) else re.sub(r"[^a-z0-9.]+", "-", simple).strip("-.")
    return SlotReading("", _nearest_slots(words), own if re.fullmatch(SLOT_PATTERN, own) else "")


def find_slots(text: str) -> tuple[str, ...]:
    """The slots that stand somewhere in a text, longest words first.

    A lone letter or number is none.

    >>> find_slots("7 iron, new shaft"), find_slots("Tove's gap wedge"), find_slots("a new one")
    (('7i',), ('gw',), ())
    """
    words = re.findall(r"[^\W_]+°?", unicodedata.normalize("NFKC", text[:_LONGEST_TEXT]).casefold())
    out: dict[str, None] = {}
    used: set[int] = set()
    for length in (3, 2, 1):
        for start in range(len(words) - length + 1):
            places = range(start, start + length)
            phrase = " ".join(words[start : start + length])
            if (
                len(phrase) > 1
                and not phrase.isdigit()
                and used.isdisjoint(places)
                and (slot := read_slot(phrase).slot)
            ):
                out[slot] = None
                used.update(places)
    return tuple(out)


def _match_slot(words: list[str]) -> str:
    """The slot that these words name, or an empty string."""
    if slot := _BY_NAME.get("".join(words)):
        return slot
    numbers = [word.replace(",", ".") for word in words if word[0].isdigit()]
    name = "".join(word for word in words if word.isalpha())
    if len(numbers) != 1:
        return ""
    number = numbers[0]
    degrees = "°" in words or name in ("deg", "degree", "degrees")
    if letter := _LETTERS.get(name) if "°" not in words and "." not in number else None:
        if (letter, int(number)) == ("w", 1):
            return "driver"
        return f"{int(number)}{letter}" if 1 <= int(number) <= _HIGHEST[letter] else ""
    if degrees or name in ("", "wedge", "degwedge", "degreewedge", "wedgedeg", "wedgedegrees", "wedgedegree"):
        return _by_loft(number)
    return ""


def _by_loft(number: str) -> str:
    """The slot of a wedge known by its loft, or an empty string.

    7 alone may be an iron or a wood.
    """
    low, high = _WEDGE_LOFTS
    if not re.fullmatch(r"\d\d(\.\d)?0*", number) or not low <= float(number) <= high:
        return ""
    return f"{float(number):g}"


def _nearest_slots(words: list[str]) -> tuple[str, ...]:
    """The slots that are nearest to what was typed, most alike first."""
    from difflib import get_close_matches

    typed = "".join(words)
    if re.fullmatch(r"[1-9]|1[01]", typed):
        return tuple(f"{typed}{letter}" for letter in "iwh" if f"{typed}{letter}" in _NUMBERED_SLOTS)
    spelled = {**_BY_NAME, **{slot: slot for slot in _NUMBERED_SLOTS}}
    for slot in _NUMBERED_SLOTS:
        word = {"w": "wood", "h": "hybrid", "i": "iron"}[slot[-1]]
        spelled |= {f"{slot[:-1]}{word}": slot, f"{word}{slot[:-1]}": slot}
    found = get_close_matches(typed, list(spelled), n=12, cutoff=0.6)
    return tuple(dict.fromkeys(spelled[each] for each in found))[:MOST_SUGGESTIONS]


def parse_slot(text: str, own: bool = False) -> str:
    """Return the slot that a person typed.

    With ``own`` a slot of the player's own making is taken too.

    Raises UsageError, naming the nearest slots, for what is not understood.

    >>> parse_slot("Driving-Iron", own=True)
    'driving-iron'
    """
    reading = read_slot(text)
    if reading.slot or (own and reading.own):
        return reading.slot or reading.own
    raise UsageError(f"'{text.strip()[:_LONGEST]}' is not a slot", do=slot_advice(reading, own))


def slot_advice(reading: SlotReading, own: bool = False) -> str:
    """What to do about a slot that is not understood.

    >>> slot_advice(read_slot("drvier"))
    "did you mean driver? (in the shell, --own-slot makes 'drvier' one of your own)"
    """
    if reading.near:
        mine = "" if own or not reading.own else f" (in the shell, --own-slot makes '{reading.own}' one of your own)"
        return f"did you mean {format_choice(reading.near)}?{mine}"
    if own or not reading.own:
        return f"write {SLOT_FORM}"
    return f"write {SLOT_FORM}, or say that '{reading.own}' is one of your own (in the shell: --own-slot)"
