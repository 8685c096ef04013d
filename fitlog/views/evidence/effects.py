"""Differences to the reference in words."""

from typing import TYPE_CHECKING

from fitlog.evidence.shots.wording import EffectWords, effect_words
from fitlog.records.wording.display_units import DisplayUnits

if TYPE_CHECKING:
    from fitlog.evidence.intervals.ranks import Shift


def words_of(key: str, shift: "Shift", units: DisplayUnits) -> EffectWords:
    """A difference in the golfer's words, in the units shown."""
    return effect_words(key, shift.estimate, shift.low, shift.high, units)


def format_effect(key: str, shift: "Shift", units: DisplayUnits) -> str:
    """A difference that was seen; else that none was, and how large it may be.

    >>> from fitlog.evidence.intervals.ranks import Shift
    >>> format_effect("descent_deg", Shift(0.2, -1.4, 1.9, 0.95, 8, 10, 0.6), DisplayUnits())
    'no difference seen, at most 1.9°'
    >>> format_effect("carry_yd", Shift(5.0, 1.0, 9.0, 0.95, 8, 10, 0.01), DisplayUnits())
    '5 yd farther'
    """
    words = words_of(key, shift, units)
    return words.size if shift.tells else words.unseen
