"""The landing picture: every shot is drawn where it lies, clubs are told apart without colour."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.evidence.pattern.dispersion import dispersion
from fitlog.evidence.pattern.picture import DASHES, FRAME, GLYPHS, SHAPES, Scene, Series, cells, landing_scene, rows
from fitlog.records.errors import Refusal

BAG = [(-6.0, 228.0), (2.0, 231.0), (5.0, 226.0), (-1.0, 233.0), (-9.0, 219.0)]
OURS = [(8.0, 238.0), (12.0, 241.0), (3.0, 236.0), (6.0, 244.0)]


def found(points: list[tuple[float, float]]) -> Series:
    return Series("club", points, (), dispersion([{"offline_yd": x, "carry_yd": y} for x, y in points]))


def both() -> Scene:
    return landing_scene([found(BAG), found(OURS)._replace(left_out=[(20.0, 215.0), (0.0, 60.0)])])


def test_each_series_has_its_own_dash_and_its_own_mark() -> None:
    assert len({*DASHES}) == len(DASHES) == len({GLYPHS[shape] for shape in SHAPES}) == len(SHAPES)
    scene = both()
    assert {stroke.dash for stroke in scene.strokes if stroke.series == 0} == {DASHES[0]}
    assert {stroke.dash for stroke in scene.strokes if stroke.series == 1} == {()}
    assert {mark.shape for mark in scene.marks if mark.series == 0} == {"circle", "centre"}
    assert {mark.shape for mark in scene.marks if mark.series == 1} == {"diamond", "centre", "out"}


def test_both_ellipses_of_each_club_are_in_the_scene() -> None:
    assert [stroke.series for stroke in both().strokes] == [FRAME, 0, 0, 1, 1]


def test_a_shot_left_out_far_from_the_others_does_not_make_them_small_but_is_told() -> None:
    scene = both()
    assert scene.beyond == 1
    assert scene.low[1] > 100
    alone = landing_scene([Series("a", [], [(0.0, 60.0)])])
    assert (alone.beyond, [mark.shape for mark in alone.marks]) == (0, ["out"])


def test_what_is_right_of_the_target_line_is_drawn_right_of_it_and_longer_higher() -> None:
    drawn = rows(landing_scene([Series("a", [(-20.0, 200.0), (20.0, 240.0)])]), 60, 20)
    (short, left), (long, right) = (
        next((number, line.index("o")) for number, line in order if "o" in line)
        for order in (list(enumerate(drawn))[::-1], list(enumerate(drawn)))
    )
    assert left < right
    assert long < short


def test_one_scale_for_both_axes() -> None:
    # a square of shots: as many dots wide as tall, a character being two by four of them
    scene = landing_scene([Series("a", [(-20.0, 200.0), (20.0, 200.0), (-20.0, 240.0), (20.0, 240.0)])])
    lit = [(x, y) for y, row in enumerate(cells(scene, 80, 40)) for x, cell in enumerate(row) if cell.char == "o"]
    wide = max(x for x, _ in lit) - min(x for x, _ in lit)
    tall = max(y for _, y in lit) - min(y for _, y in lit)
    assert wide == pytest.approx(2 * tall, abs=2)


@settings(max_examples=60)
@given(
    st.lists(st.tuples(st.floats(-150, 150), st.floats(0, 400)), min_size=1, max_size=15),
    st.integers(24, 100),
    st.integers(8, 40),
)
def test_any_shots_fit_the_room_given(points: list[tuple[float, float]], width: int, height: int) -> None:
    drawn = rows(landing_scene([Series("a", points)]), width, height)
    assert len(drawn) <= height
    assert max(map(len, drawn)) <= width
    assert any("o" in line for line in drawn)


def test_the_offline_axis_names_its_sides() -> None:
    last = rows(both(), 70, 24)[-1]
    assert last.index("L") < last.index(" 0 ") < last.index("R")


def test_too_little_room_no_shot_and_too_many_clubs_are_refused() -> None:
    with pytest.raises(Refusal, match="24 × 8"):
        rows(both(), 20, 10)
    with pytest.raises(Refusal, match="no shot has both carry and offline"):
        landing_scene([Series("a", [])])
    with pytest.raises(Refusal, match="at most 4"):
        landing_scene([Series("a", [(0, 1)])] * 5)
