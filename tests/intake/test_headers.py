"""What the words of a header say."""

import pytest

from fitlog.intake.headers import _WORDS, GROUP, counts_other_side, key_of
from fitlog.records.models.importer import SHOT_KEYS


@pytest.mark.parametrize(
    ("header", "key"),
    [
        ("Ball vel", "ball_speed_mph"), ("Ball Speed", "ball_speed_mph"), ("Ballgeschw.", "ball_speed_mph"),
        ("Vitesse de balle", "ball_speed_mph"), ("Velocidad de la bola", "ball_speed_mph"), ("v0", "ball_speed_mph"),
        ("Club speed", "head_speed_mph"), ("Vertical launch", "launch_deg"), ("Horizontal launch", "direction_deg"),
        ("Abflug", "launch_deg"), ("Abflugrichtung", "direction_deg"), ("la", "launch_deg"),
        ("Back Spin", "spin_rpm"), ("Drall", "spin_rpm"), ("Spin axis", "spin_axis_deg"), ("Side spin", ""),
        ("Carry", "carry_yd"), ("Flugweite", "carry_yd"), ("Portée", "carry_yd"), ("Total", "total_yd"),
        ("Side", "offline_yd"), ("Seite, links +", "offline_yd"), ("Carry side", "offline_yd"), ("Side total", ""),
        ("Höhe", "peak_height_yd"), ("Hoehe", "peak_height_yd"), ("Hauteur", "peak_height_yd"),
        ("Landing angle", "descent_deg"),
        ("Zeit", "at"), ("Flugzeit", "time_s"), ("Hang time", "time_s"), ("Satz", GROUP), ("Club", GROUP),
        ("heel(-) toe(+)", "strike_x_mm"), ("low(-) high(+)", "strike_y_mm"), ("Face to path", ""),
        ("Dynamic loft", "dynamic_loft_deg"), ("Comment", "note"), ("No", ""), ("shot", ""), ("", ""),
        ("carry " * 40, ""),
    ],
)  # fmt: skip
def test_plain_words(header: str, key: str) -> None:
    assert key_of(header)[0] == key


def test_every_word_leads_to_a_key_of_ours() -> None:
    assert {key for key, _ in _WORDS} <= {*SHOT_KEYS, GROUP, ""}


def test_the_more_telling_of_two_headers_says_more() -> None:
    assert key_of("Total spin")[1] > key_of("Spin")[1]


@pytest.mark.parametrize(
    ("header", "turned"),
    [
        ("Seite, links + (m)", True), ("Side (L+)", True), ("Side, left is positive", True), ("Side + left", True),
        ("heel(+) toe(-)", True), ("Side right -", True), ("heel(-) toe(+)", False), ("Side R+ / L-", False),
        ("Side L-/R+", False), ("Side", False), ("Total +", False), ("right-hand side", False),
    ],
)  # fmt: skip
def test_which_side_is_positive(header: str, turned: bool) -> None:
    assert counts_other_side(header) is turned
