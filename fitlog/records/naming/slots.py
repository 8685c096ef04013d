"""Places in the bag: which kind of club each holds and in what order they stand."""

import re

WOOD, IRON, WEDGE, PUTTER = "wood", "iron", "wedge", "putter"
DRIVER, HYBRID = "driver", "hybrid"  # kinds of head that count as woods otherwise
KINDS = (WOOD, IRON, WEDGE, PUTTER)
SLOT_PATTERN = r"[a-z0-9][a-z0-9.-]{0,15}"
SLOT_FORM = "a slot such as driver, 3w, 5h, 4i, pw, 52 or putter"
_LETTERED = {"pw": 44.0, "uw": 48.0, "aw": 50.0, "gw": 50.5, "sw": 55.0, "lw": 60.0}


def kind_of(slot: str) -> str:
    """The kind of club a slot holds.

    A slot of one's own naming is an iron unless the club says its kind.

    >>> [kind_of(slot) for slot in ("driver", "3w", "5h", "4i", "pw", "52", "putter")]
    ['wood', 'wood', 'wood', 'iron', 'wedge', 'wedge', 'putter']
    """
    if slot == "driver" or re.fullmatch(r"\d{1,2}[wh]", slot):
        return WOOD
    if slot == "putter":
        return PUTTER
    if slot in _LETTERED or re.fullmatch(r"[4-7]\d(\.\d)?", slot):
        return WEDGE
    return IRON


def head_kind(slot: str, kind: str = "") -> str:
    """The kind of head in a slot, finer than kind_of.

    Driver and hybrid are not a wood. ``kind`` is the club's own.

    >>> [head_kind(slot) for slot in ("driver", "3w", "5h", "4i", "pw", "putter")]
    ['driver', 'wood', 'hybrid', 'iron', 'wedge', 'putter']
    >>> head_kind("long one", "wood"), head_kind("5h", "iron")
    ('wood', 'iron')
    """
    kind = kind or kind_of(slot)
    if kind != WOOD:
        return kind
    return DRIVER if slot == DRIVER else HYBRID if re.fullmatch(r"\d{1,2}h", slot) else WOOD


def order_of(slot: str) -> tuple[float, float, str]:
    """A sort key that puts slots in bag order.

    Driver, woods, hybrids, irons, wedges, others, putter.
    """
    if slot == "driver":
        return (0, 0, slot)
    numbered = re.fullmatch(r"(\d{1,2})([whi])", slot)
    if numbered:
        return ({"w": 1, "h": 2, "i": 3}[numbered[2]], float(numbered[1]), slot)
    if kind_of(slot) == WEDGE:
        return (4, _LETTERED[slot] if slot in _LETTERED else float(slot), slot)
    return (6 if slot == "putter" else 5, 0, slot)
