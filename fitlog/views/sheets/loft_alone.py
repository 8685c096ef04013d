"""How much of a difference another loft alone explains, by the flight model."""

from typing import TYPE_CHECKING, NamedTuple

from fitlog.flight.balls.coefficients import describe_model
from fitlog.records.errors import FitlogError
from fitlog.records.models.session import ClubTest, Session
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.units import format_number
from fitlog.saving.desk import Desk
from fitlog.views.flight.own_launch import attack_or_level, mean_launch

if TYPE_CHECKING:
    from fitlog.flight.physics.launch import Flight

_LEAST_DEG = 0.25


class LoftAlone(NamedTuple):
    """What the reference's swing would do with the candidate's loft."""

    before_deg: float
    after_deg: float
    gain: "Flight"
    model: str


def loft_alone(
    desk: Desk, where: str, session: Session, test: ClubTest, reference: ClubTest | None
) -> LoftAlone | None:
    """The change that loft alone makes to a mean launch; None if not known.

    It is None for one loft too.

    ``where`` is the reference's address.
    """
    from fitlog.flight.whatif import LaunchChange, what_if

    before, after = (_loft(each) for each in (reference, test))
    if reference is None or before is None or after is None or abs(after - before) < _LEAST_DEG:
        return None
    try:
        own = mean_launch(desk, where, session, reference)
        found = what_if(
            own.launch,
            LaunchChange(loft_deg=after - before),
            own.around.reference,
            attack_deg=attack_or_level(own.attack_deg),
            restitution=own.head.restitution,
            head_mass_g=own.head.mass_g,
            tangential=own.head.tangential,
            model=own.around.model,
        )
    except FitlogError:
        return None
    return LoftAlone(before, after, found.gain, own.around.model.name)


def _loft(test: ClubTest | None) -> float | None:
    if test is None:
        return None
    return test.setup.loft_deg if test.setup.loft_deg is not None else test.setup.head.loft_deg


def describe_loft_alone(effect: LoftAlone, units: DisplayUnits) -> str:
    """What the loft alone explains, for a sentence that names the club.

    >>> from fitlog.flight.physics.launch import Flight
    >>> lofts = LoftAlone(32.0, 34.0, Flight(-6.2, 2.0, 1.3, 0.1, 0.0), "naruo-2004")
    >>> describe_loft_alone(lofts, DisplayUnits()).partition(" explains ")[2]
    '6 yd shorter, 2 yd higher, 1.3° steeper by the flight model naruo-2004'
    """
    sentences = []
    for key, more, less in (("carry_yd", "farther", "shorter"), ("peak_height_yd", "higher", "lower")):
        size = units.convert(key, getattr(effect.gain, key))
        sentences.append(f"{abs(size):.0f} {units.symbol(key)} {more if size >= 0 else less}")
    steep = effect.gain.descent_deg
    sentences.append(f"{abs(steep):.1f}° {'steeper' if steep >= 0 else 'shallower'}")
    lofts = f"{format_number(effect.after_deg)}° in place of {format_number(effect.before_deg)}°"
    return f"the loft alone ({lofts}) explains {', '.join(sentences)} {describe_model(effect.model)}"
