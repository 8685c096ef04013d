"""A golfer's words for side, curve and strike. Pure Python.

The arithmetic of impact stands here too.

Right of target is positive for every player. Draw and fade, push and pull follow the player's hand, so a
left-hander's draw is still a draw. Heel to toe is measured on the face: toe is positive for every player.
"""

from __future__ import annotations

import math
from typing import Literal, TypeAlias

from fitlog.records.errors import Refusal
from fitlog.records.wording.units import with_unit

Hand: TypeAlias = Literal["right", "left"]
BALL_MASS_G = 45.93  # the heaviest ball that the Rules allow, 1.620 oz


def side(value: float) -> str:
    """``right``, ``left`` or ``on line``.

    >>> side(-3)
    'left'
    """
    return "right" if value > 0 else "left" if value < 0 else "on line"


def format_side(value: float, unit: str, decimals: int = 0) -> str:
    """A signed measure as a golfer says it.

    >>> format_side(-4.2, "yd"), format_side(0.04, "deg", 1)
    ('4 yd left', 'on line')
    """
    number = f"{abs(value):.{decimals}f}"
    return f"{with_unit(number, unit)} {side(value)}" if float(number) else "on line"


def with_side_letter(text: str) -> str:
    """A signed number with R or L.

    >>> with_side_letter("-4.2"), with_side_letter("3"), with_side_letter("0.0")
    ('4.2 L', '3 R', '0.0')
    """
    if not float(text):
        return text.lstrip("-")
    return f"{text[1:]} L" if text.startswith("-") else f"{text} R"


def curve_word(curve: float, hand: Hand, straight: float = 0.0) -> str:
    """``draw``, ``fade`` or ``straight``.

    A draw curves toward the side the player stands on, away from the fade.

    ``curve`` any measure of curve that is positive to the right (yd, spin axis in degrees);
    ``straight`` how much of it still counts as straight, same unit. Raises Refusal for an unknown hand.

    >>> curve_word(5, "right"), curve_word(5, "left"), curve_word(-5, "right")
    ('fade', 'draw', 'draw')
    """
    if abs(curve) <= straight:
        return "straight"
    return "fade" if curve * _hand_sign(hand) > 0 else "draw"


def start_word(direction: float, hand: Hand, straight: float = 0.0) -> str:
    """``push``, ``pull`` or ``straight``.

    A right-hander's push starts right, a left-hander's left.

    >>> start_word(3, "right"), start_word(3, "left")
    ('push', 'pull')
    """
    if abs(direction) <= straight:
        return "straight"
    return "push" if direction * _hand_sign(hand) > 0 else "pull"


def _hand_sign(hand: Hand) -> int:
    if hand not in ("right", "left"):
        raise Refusal(f"'{hand}' is not a hand", where="hand", do="write right or left")
    return 1 if hand == "right" else -1


def strike_words(x_mm: float, y_mm: float) -> str:
    """Where on the face: toe is positive in x, high in y, from the centre.

    >>> strike_words(12, -4), strike_words(0.2, 0.3)
    ('12 mm toward the toe, 4 mm low', 'in the middle')
    """
    parts = []
    if round(abs(x_mm)):
        parts.append(f"{abs(x_mm):.0f} mm toward the {'toe' if x_mm > 0 else 'heel'}")
    if round(abs(y_mm)):
        parts.append(f"{abs(y_mm):.0f} mm {'high' if y_mm > 0 else 'low'}")
    return ", ".join(parts) or "in the middle"


def speed_ratio_bound(
    head_mass_g: float = math.inf, *, restitution: float = 0.83, ball_mass_g: float = BALL_MASS_G, loft_deg: float = 0
) -> float:
    """The most ball speed a head speed can give: (1 + e) / (1 + m/M) · cos(loft).

    ``head_mass_g`` M (an unknown head is endlessly heavy: 1 + e); ``restitution`` e, 0 to 1;
    ``ball_mass_g`` m; ``loft_deg`` the spin loft, degrees. Returns ball speed / head speed.
    Raises Refusal for a mass that is not above zero or e outside 0 to 1.
    Source: momentum and restitution in one line; printed with e 0.83, m 46 g.

    >>> round(speed_ratio_bound(200, ball_mass_g=46), 3)
    1.488
    >>> round(speed_ratio_bound(), 2)
    1.83
    """
    if not (head_mass_g > 0 and 0 < ball_mass_g < math.inf):
        raise Refusal("a head weight must be above zero", where="head_mass_g", do="write grams such as 200")
    if not 0 <= restitution <= 1:
        raise Refusal(
            f"a restitution of {restitution} is not between 0 and 1",
            where="restitution",
            do="write 0 to 1, such as 0.83",
        )
    return (1 + restitution) / (1 + ball_mass_g / head_mass_g) * math.cos(math.radians(loft_deg))


def spin_loft(dynamic_loft_deg: float, attack_deg: float, face_to_path_deg: float = 0.0) -> float:
    """The angle between the head's velocity and the normal of the face, in space.

    cos σ = sin A sin L + cos A cos L cos F, with A the attack angle, L the dynamic loft and F face minus path,
    all in degrees; σ in degrees. With F = 0 it is |L − A|. Source: the spherical law of cosines.

    >>> round(spin_loft(14, -1), 3), round(spin_loft(14, -1, 2), 3)
    (15.0, 15.13)
    """
    attack, loft, face = (math.radians(angle) for angle in (attack_deg, dynamic_loft_deg, face_to_path_deg))
    # the half-angle form keeps its digits where the cosine is near 1
    half = math.sin((loft - attack) / 2) ** 2 + math.cos(attack) * math.cos(loft) * math.sin(face / 2) ** 2
    return math.degrees(2 * math.asin(math.sqrt(min(1.0, half))))
