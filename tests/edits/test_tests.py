"""Rows of tests in a session's file: found, added to, and left alone once decided."""

from datetime import time

import pytest

from fitlog.edits.tests import append_file, append_shots, find_row, name_row, refuse_decided, refuse_reference
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.session import REFERENCE, ClubTest
from fitlog.saving.desk import Desk
from fitlog.workspace.documents import Document

TEXT = """date = 2026-04-18

[[test]]
id = "b4t"
slot = "3w"

[[test]]
id = "r2x"
slot = "7i"
"""


@pytest.fixture
def session() -> Document:
    """A session of two tests without shots."""
    return Document("players/mo/sessions/2026-04-18-q7k.toml", TEXT)


def test_shots_get_ids_of_their_own_and_the_time_they_do_not_have(desk: Desk, session: Document) -> None:
    given = time(9, 30)
    ids = append_shots(desk, session, 1, [{"carry_yd": 150.0}, {"at": given, "carry_yd": 151.0}], time(10, 0, 5, 77))
    ids += append_shots(desk, session, 1, [{"carry_yd": 152.0}])
    shots = session.table["test"][1]["shots"]
    assert [shot["id"] for shot in shots] == ids
    assert len(set(ids)) == 3
    assert [shot.get("at") for shot in shots] == [time(10, 0, 5), given, None]
    assert "shots" not in session.table["test"][0]


def test_a_files_shots_stand_with_where_they_came_from(desk: Desk, session: Document) -> None:
    append_file(desk, session, 0, [{"carry_yd": 1.0 * n} for n in range(3)], {"file": "bay.csv"})
    row = session.table["test"][0]
    assert [shot["carry_yd"] for shot in row["shots"]] == [0.0, 1.0, 2.0]
    assert row["sources"] == [{"file": "bay.csv"}]


def test_a_test_is_found_with_its_place(session: Document) -> None:
    row, place = find_row(session, "r2x")
    assert (row["slot"], place) == ("7i", 1)
    with pytest.raises(UsageError, match="there is no test 'zzz'"):
        find_row(session, "zzz")


def test_a_test_is_named_by_what_it_is_among_the_others() -> None:
    rows = [{"id": "a", "slot": "3w", "role": "reference"}, {"id": "b", "slot": "3w"}, {"id": "c", "slot": "3w"}]
    assert len({name_row(row, rows) for row in rows}) == 3


def test_what_was_decided_stays_and_a_reference_never_is() -> None:
    refuse_decided({"verdict": {}}, "3w")
    refuse_reference(ClubTest("b4t", "3w"), "3w", "")
    with pytest.raises(Refusal, match=r"decided \(keep on 2026-04-18\)"):
        refuse_decided({"verdict": {"decision": "keep", "on": "2026-04-18"}}, "3w")
    with pytest.raises(Refusal, match="a reference is never decided"):
        refuse_reference(ClubTest("b4t", "3w", REFERENCE), "3w", "")
