"""Rows that sum up the shots above them; the statistics are those of Python's statistics module."""

import statistics
from collections.abc import Callable, Iterable, Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitlog.intake.preview import preview
from fitlog.intake.reading import read_shots
from fitlog.records.models.importer import Column, Importer

COLUMNS = (
    Column("Ball", "ball_speed_mph", "m/s"),
    Column("Carry", "carry_yd", "m"),
    Column("Side", "offline_yd", "m", turn_sign=True),
    Column("Spin", "spin_rpm"),
)
BAY = Importer("Bay", column=COLUMNS)
SHOTS = [(66.1, 201.3, 3.1, 2410), (65.2, 197.9, -4.4, 2630), (67.0, 205.6, 0.9, 2350), (64.8, 195.2, 7.7, 2718)]


Statistic = Callable[[Sequence[float]], float]
HOWS: list[Statistic] = [statistics.mean, statistics.median, statistics.stdev, statistics.pstdev, min, max]


def table(rows: Iterable[Sequence[object]], head: str = "Ball,Carry,Side,Spin") -> bytes:
    return "\n".join([head, *(",".join(map(str, row)) for row in rows)]).encode()


def summed(how: Statistic, digits: int = 1) -> tuple[str, ...]:
    return tuple(f"{float(how(column)):.{digits}f}" for column in zip(*SHOTS, strict=True))


@pytest.mark.parametrize("how", HOWS, ids=lambda each: each.__name__)
@pytest.mark.parametrize("digits", [0, 1, 2])
def test_each_statistic_is_known_by_its_numbers(how: Statistic, digits: int) -> None:
    intake = read_shots(table([*SHOTS, summed(how, digits)]), BAY)
    assert intake.shots == len(SHOTS)
    assert "summary row" in intake.skipped[0].why


def test_several_summary_rows_after_each_group_and_at_the_end() -> None:
    head = "Club,Ball,Carry,Side,Spin"
    rows: list[tuple[object, ...]] = []
    for club in ("7 iron", "5 wood"):
        rows += [(club, *shot) for shot in SHOTS]
        rows += [(club, *summed(statistics.mean)), (club, *summed(statistics.stdev))]
    rows += [("", *summed(statistics.mean))]
    intake = read_shots(table(rows, head), BAY._replace(group="Club"))
    assert {name: len(shots) for name, shots in intake.groups.items()} == {"7 iron": 4, "5 wood": 4}


def test_two_columns_are_enough_where_the_group_is_missing_too() -> None:
    rows = [("7 iron", *shot[:2]) for shot in SHOTS]
    mean = tuple(summed(statistics.mean)[:2])
    by_club = BAY._replace(group="Club")
    assert read_shots(table([*rows, ("", *mean)], "Club,Ball,Carry"), by_club).shots == len(SHOTS)
    assert read_shots(table([*rows, ("7 iron", *mean)], "Club,Ball,Carry"), by_club).shots == len(SHOTS) + 1


def test_a_row_without_its_number_at_the_end() -> None:
    rows: list[tuple[object, ...]] = [(number, *shot) for number, shot in enumerate(SHOTS, 1)]
    data = table([*rows, ("", 65.8, 200.0, 1.8, 2500)], "No,Ball,Carry,Side,Spin")
    assert read_shots(data, BAY).shots == len(SHOTS)
    within = table([*rows[:3], ("", 65.8, 200.0, 1.8, 2500), *rows[3:]], "No,Ball,Carry,Side,Spin")
    assert read_shots(within, BAY).shots == len(SHOTS) + 1


def test_shots_stay_shots() -> None:
    alike = [*SHOTS, SHOTS[0], (66.0, 200.0, 1.8, 2500)]
    assert read_shots(table(alike), BAY).shots == len(alike)
    within = [*SHOTS, summed(statistics.mean), (64.0, 190.0, 8.8, 2900)]
    assert read_shots(table(within), BAY).shots == len(within)
    assert read_shots(table([*SHOTS, summed(statistics.mean)]), BAY._replace(summary=("Sum",))).shots == 5
    same = [(66.0, 200.0, 1.0, 2500)] * 6
    assert read_shots(table(same), BAY).shots == 6


@given(st.lists(st.tuples(*(st.integers(600, 700) for _ in range(4))), min_size=1, max_size=25))
@settings(max_examples=150)
def test_random_shots_are_not_taken_for_summaries(rows: list[tuple[int, ...]]) -> None:
    """Only a row that is a statistic in all its columns may be; of random ones such a row must be left to check."""
    shots = [(row[0] / 10, row[1] / 10, row[2] / 10, row[3] * 4) for row in rows]
    for each in read_shots(table(shots), BAY).skipped:
        columns = list(zip(*shots[: each.line - 2], strict=True))
        row = shots[each.line - 2]
        assert any(
            all(len(set(c)) < 2 or abs(float(how(c)) - v) <= 0.6 for c, v in zip(columns, row, strict=True))
            for how in HOWS
        )


def test_the_preview_shows_the_last_rows() -> None:
    seen = preview(table([*SHOTS, summed(statistics.mean)]), BAY)
    assert [why for _, why in seen.last] == ["", "", "summary row (mean)"]
