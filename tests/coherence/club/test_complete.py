"""Open values are filled from the parts; what the setup says stands."""

from __future__ import annotations

from fitlog.coherence.club.complete import complete_setup, part_names
from fitlog.records.models.part import Part, read_part
from tests.coherence.helpers import club


def part(shelf: str, **keys: object) -> Part:
    return read_part(shelf, {"model": "Tansy", **keys}, [])


PARTS = {
    "heads/tansy-9": part("heads", mass_g=200.0, volume_cc=455.0, sleeve_mass_g=6.0),
    "shafts/gorse-60": part("shafts", mass_g=61.0, raw_length_in=46.0, tip_trim_in=1.0),
}


def test_what_the_setup_says_stands_and_the_rest_comes_from_the_part() -> None:
    setup = club("driver", head={"part": "tansy-9", "mass_g": 203.5}, shaft={"part": "gorse-60"}).setup
    found = complete_setup(setup, PARTS)
    assert found.setup.head.mass_g == 203.5
    assert found.setup.head.volume_cc == 455.0
    assert found.setup.shaft.raw_length_in == 46.0
    assert found.setup.sleeve.mass_g == 6.0
    assert found.sources["head.volume_cc"] == "parts/heads/tansy-9"
    assert "head.mass_g" not in found.sources
    assert found.missing == ()


def test_what_was_done_to_this_club_is_never_taken_from_stock() -> None:
    found = complete_setup(club("driver", shaft={"part": "gorse-60"}).setup, PARTS)
    assert found.setup.shaft.tip_trim_in is None


def test_a_part_that_is_not_there_is_named() -> None:
    setup = club("driver", head={"part": "lost-1"}).setup
    found = complete_setup(setup, PARTS)
    assert found.missing == ("parts/heads/lost-1",)
    assert found.setup == setup


def test_part_names() -> None:
    setup = club("driver", head={"part": "tansy-9"}, grip={"part": "abb"}).setup
    assert part_names(setup) == ["heads/tansy-9", "grips/abb"]


def test_the_balance_point_of_a_longer_blank_is_not_taken_for_a_shorter_one() -> None:
    sedge = part("shafts", mass_g=105.0, raw_length_in=39.0, balance_in=19.4)
    own = {"part": "sedge", "raw_length_in": 36.5}
    found = complete_setup(club("9i", shaft=own).setup, {"shafts/sedge": sedge})
    assert found.setup.shaft.balance_in is None
    assert found.setup.shaft.mass_g == 105.0
    assert found.mismatches == (
        "the balance point in parts/shafts/sedge is ignored: measured on a 39 in blank, this one is 36.5 in",
    )
    same = complete_setup(club("9i", shaft={**own, "raw_length_in": 39.0}).setup, {"shafts/sedge": sedge})
    assert (same.setup.shaft.balance_in, same.mismatches) == (19.4, ())
