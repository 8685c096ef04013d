"""Ways to a target, and to the club that is matched."""

import pytest

from fitlog.bench.components.masses import Piece, add_up
from fitlog.saving.desk import Desk
from fitlog.views.bench.options import matchings, ways_to
from fitlog.views.bench.setup import Work, change, with_values
from fitlog.views.bench.sheet import work_out


def test_each_way_alone_meets_the_target(desk: Desk, work: Work) -> None:
    sheet = work_out(work)
    assert sheet.assembly is not None
    ways = {way.what: way for way in ways_to(sheet, 38.0)}
    assert list(ways) == ["head", "tip weight", "butt weight", "length"]
    for what, key in (("head", "head.mass_g"), ("length", "length_in")):
        after = work_out(change(desk, work, key, f"{ways[what].becomes}"))
        assert after.sums is not None
        assert after.sums.points == pytest.approx(38.0, abs=0.002)
    grams = ways["tip weight"].change
    assert grams is not None
    tip = work_out(with_values(desk, work, {"weights": [*work.table["weights"], {"place": "tip", "mass_g": grams}]}))
    assert tip.sums is not None
    assert tip.sums.points == pytest.approx(38.0, abs=1e-9)


def test_matching_the_reference_gives_its_swing_weight_and_inertia(desk: Desk, work: Work) -> None:
    reference = work_out(work).sums
    other = work_out(change(desk, work, "head.mass_g", "190"))
    assert reference is not None
    assert other.assembly is not None
    found = {each.words: each for each in matchings(other, reference)}
    swing, inertia, near, both = found.values()
    assert swing.match is not None
    assert inertia.match is not None
    assert near.match is not None
    assert both.match is not None
    assert swing.match.points_off == pytest.approx(0, abs=1e-9)
    assert inertia.match.moi_off_kg_cm2 == pytest.approx(0, abs=1e-9)
    assert both.match.points_off == pytest.approx(0, abs=1e-9)
    assert both.match.moi_off_kg_cm2 == pytest.approx(0, abs=1e-6)
    after = add_up((*other.assembly.pieces, *(Piece("w", p.mass_g, p.at_in) for p in both.match.weights)))
    assert after.points == pytest.approx(reference.points)
