"""The columns that a test asks for, and a shot in these columns."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fitlog.records.models.session import (
    MEASURES,
    ClubTest,
    Session,
    Shot,
)

if TYPE_CHECKING:
    pass


USUAL_COLUMNS = ("carry_yd", "offline_yd", "ball_speed_mph")


def format_shot(shot: Shot, columns: Sequence[str]) -> list[str]:
    """A shot's values in the order of the columns, as text."""
    from fitlog.records.wording.units import format_number

    return [format_number(value) if (value := getattr(shot, key)) is not None else "–" for key in columns]


def columns_of(session: Session, test: ClubTest | None = None) -> tuple[str, ...]:
    """The columns to type: the session's choice, its shots', or the usual ones."""
    if session.columns:
        return session.columns
    tests = [test] if test and test.shots else session.test
    used = dict.fromkeys(key for each in tests for row in each.raw.get("shots", []) for key in row if key in MEASURES)
    return tuple(used) if set(used) - set(USUAL_COLUMNS) else USUAL_COLUMNS
