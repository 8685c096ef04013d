"""What a person should look at in a bag, in words."""

from collections import Counter

from fitlog.records.bag import Bag, Club
from fitlog.records.slots import PUTTER

MOST_CLUBS = 14  # [S] Rules of Golf, rule 4.1b


def loft(club: Club) -> float | None:
    """The club's loft: as set, else the head's."""
    return club.setup.loft_deg if club.setup.loft_deg is not None else club.setup.head.loft_deg


def remarks(bag: Bag) -> list[str]:
    """Too many clubs, two in one slot, lofts unknown, a make-up that is too large."""
    carried = bag.carried
    out = []
    if len(carried) > MOST_CLUBS:
        out.append(f"{len(carried)} clubs are carried; a round may be started with {MOST_CLUBS} at most (rule 4.1b)")
    out += [
        f"make-up {makeup.name} has {len(makeup.clubs)} clubs; {MOST_CLUBS} at most (rule 4.1b)"
        for makeup in bag.makeup
        if len(makeup.clubs) > MOST_CLUBS
    ]
    doubled = [slot for slot, count in Counter(club.slot for club in carried).items() if count > 1]
    out += [f"two clubs are carried as {slot}; leave one at hand" for slot in doubled]
    if unknown := [club.address for club in carried if loft(club) is None and club.of_kind != PUTTER]:
        out.append("no loft is written down for " + ", ".join(unknown))
    return out
