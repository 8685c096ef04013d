"""Numbers as a sheet writes them, in the units shown and digits supported."""

from collections.abc import Iterable, Mapping

from fitlog.evidence.shots.quantities import is_sided_key
from fitlog.evidence.shots.wording import digits, with_side
from fitlog.records.models.bag import Club
from fitlog.records.models.player import Player
from fitlog.records.naming.refs import ClubRef
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.words import describe_setup

MINUS = "−"


def display_name(player: Player, initials: bool) -> str:
    """The player's name, or initials where no name is wanted."""
    if not initials:
        return player.name
    return player.initials or " ".join(f"{word[0]}." for word in player.name.split())


def heads_of(clubs: Iterable[Club]) -> dict[str, str]:
    """The head's model of each club by its address, for ``club_name``."""
    return {club.address: club.setup.head.model or "" for club in clubs}


def club_name(address: str, heads: Mapping[str, str]) -> str:
    """A club on paper: its slot, and its head where ``heads`` share it.

    >>> heads = {"56#d9f": "Furrow 56 wide", "56#h43": "Furrow 56", "pw": "Tinder"}
    >>> club_name("56#d9f", heads), club_name("pw", heads)
    ('56 Furrow 56 wide', 'pw')
    """
    slot = ClubRef.parse(address).slot
    shared = sum(ClubRef.parse(each).slot == slot for each in heads) > 1
    return f"{slot} {heads.get(address, '')}".strip() if shared else slot


def describe_models(club: Club, units: DisplayUnits) -> str:
    """Head, shaft and sleeve in words, where lengths and lofts have columns."""
    table = {key: value for key, value in club.raw.items() if key in ("head", "shaft", "sleeve")}
    head = {key: value for key, value in table.get("head", {}).items() if key == "model"}
    return describe_setup({**table, "head": head}, units)


class Units(DisplayUnits):
    """How the sheets write numbers."""

    def convert_difference(self, key: str, value: float) -> float:
        """A difference of two values in that unit: a temperature's zero does not count."""
        return self.convert(key, value) - self.convert(key, 0.0)

    def format_width(self, key: str, value: float) -> str:
        """A spread or another width without its unit."""
        return digits(self.convert_difference(key, value), self.decimals(key))

    def format_number(self, key: str, value: float | None) -> str:
        """A measured value without its unit; right and left are letters, not signs."""
        if value is None:
            return "–"
        text = digits(self.convert(key, value), self.decimals(key))
        return with_side(key, text) if is_sided_key(key) else text.replace("-", MINUS)

    def column_head(self, key: str, label: str) -> str:
        """The head of a column: label and unit."""
        unit = self.symbol(key)
        return f"{label}, {unit}" if unit else label
