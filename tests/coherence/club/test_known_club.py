"""What is known of a club: what was measured before what was written, and that before its part."""

from fitlog.coherence.club.known_club import COMPUTED, MEASURED, WRITTEN, KnownValue, format_known, known_club
from fitlog.records.models.part import read_part
from tests.coherence.helpers import club

PARTS = {"heads/elm-7": read_part("heads", {"model": "Elm 7", "loft_deg": 33.0}, [])}


def test_a_reading_comes_before_the_setup_and_that_before_the_head() -> None:
    head = {"model": "Elm 7", "loft_deg": 33.0}
    of_head = known_club(club("7i", head=head), {})
    written = known_club(club("7i", head=head, loft_deg=32.0), {})
    read = known_club(club("7i", head=head, loft_deg=32.0, readings={"loft_deg": 31.5}), {})
    assert of_head.loft_deg == KnownValue(33.0, WRITTEN)
    assert written.loft_deg == KnownValue(32.0, WRITTEN)
    assert read.loft_deg == KnownValue(31.5, MEASURED)


def test_a_value_of_the_part_alone_names_the_part() -> None:
    found = known_club(club("7i", head={"part": "elm-7"}), PARTS)
    assert found.loft_deg is not None
    assert found.loft_deg.value == 33.0
    assert found.loft_deg.source not in (MEASURED, WRITTEN)
    assert found.missing == ()
    assert known_club(club("7i", head={"part": "gone"}), PARTS).missing != ()


def test_a_swing_weight_is_read_or_computed_and_never_the_one_wanted() -> None:
    wanted = club("7i", swing_weight="D2")
    assert known_club(wanted, {}).points is None
    assert known_club(wanted, {}, {"7i": 31.0}).points == KnownValue(31.0, COMPUTED)
    read = club("7i", readings={"swing_weight": "D3"})
    assert known_club(read, {}, {"7i": 31.0}).points == KnownValue(33.0, MEASURED)


def test_what_nobody_knows_stays_unknown() -> None:
    found = known_club(club("7i"), {})
    assert (found.loft_deg, found.lie_deg, found.length_in, found.points) == (None,) * 4
    assert found.slot == "7i"
    assert format_known(KnownValue(58.0, WRITTEN), "°") == "58° as written"
