"""A club's components and settings changed on disk: undone to the letter, never mistaken for measured."""

import re
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fitlog.actions.bag import edit
from fitlog.actions.history import proven, undo
from fitlog.actions.parts import change_part
from fitlog.actions.session import setup
from fitlog.actions.verdict import decide
from fitlog.records.errors import FitlogError
from fitlog.records.schema.dotted_keys import flatten
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings
from tests.views.bench.stocked import stocked

CHANGES = (
    "head.part=oak-10", "head.part=alder-16", "head.model=Elm 7", "head.model=Nobody's 9", "head.part=",
    "shaft.part=sedge-105", "shaft.model=Sedge 105", "shaft.model=Some 60", "grip.part=jute", "grip.model=Any",
    "sleeve.position=high", "sleeve.position=mid", "sleeve.position=nowhere", "length_in=45", "lie_deg=57",
    "weights=back 10", "readings.swing_weight=D3", "swing_weight=D4",
)  # fmt: skip


@pytest.fixture
def built(desk: Desk) -> Desk:
    made = stocked(desk)
    change_part(
        made, "heads", "oak-8", {f"setting.mid.{key}": 0.0 for key in ("loft_deg", "lie_deg", "face_deg")}, "gauged"
    )
    return made


def bag_text(desk: Desk) -> bytes:
    return Path(desk.root, "players/mo/bag.toml").read_bytes()


def values(desk: Desk) -> dict[str, Any]:
    return dict(flatten(desk.workspace.bag("mo").clubs[0].raw))


def change(desk: Desk, *asked: str) -> None:
    edit.bag_set(desk, "mo", "driver", parse_settings(asked), "to see")


@settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(steps=st.lists(st.sampled_from(CHANGES), min_size=1, max_size=4))
def test_any_changes_undone_give_the_file_back_to_the_letter(built: Desk, steps: list[str]) -> None:
    texts = [bag_text(built)]
    measured = {"swing_weight": "D3"} if "readings.swing_weight=D3" in steps else {}
    for step in steps:
        change(built, step)
        if bag_text(built) != texts[-1]:
            texts.append(bag_text(built))
        readings = {key: value for key, value in values(built).items() if key.startswith("readings.")}
        assert {key.removeprefix("readings.") for key in readings} <= {*measured, "on"}
    while len(texts) > 1:
        texts.pop()
        undo.undo(built)
        assert bag_text(built) == texts[-1]


def test_a_sleeve_turned_there_and_back_leaves_every_value_as_it_was(built: Desk) -> None:
    change(built, "loft_deg=8.5", "lie_deg=58.5", "face_deg=0.25")
    before = values(built)
    change(built, "sleeve.position=high")
    assert (values(built)["loft_deg"], values(built)["lie_deg"], values(built)["face_deg"]) == (9.5, 59.0, -0.75)
    change(built, "sleeve.position=mid")
    assert values(built) == before


def test_a_sleeve_turned_by_a_kept_candidate_moves_loft_lie_and_face(built: Desk) -> None:
    change(built, "loft_deg=8.5", "lie_deg=58.5", "face_deg=0.25")
    where = setup.start_test(built, "mo", "driver", values=parse_settings(["sleeve.position=high"])).ref
    decide.give_verdict(built, "mo", where, "keep", "higher")
    now = built.workspace.bag("mo").clubs[0].setup
    assert (now.sleeve.position, now.loft_deg, now.lie_deg, now.face_deg) == ("high", 9.5, 59.0, -0.75)


def test_a_target_swing_weight_changes_no_standing(built: Desk) -> None:
    proven.mark_proven(built, "mo", ["driver"], "trusted")
    change(built, "swing_weight=D4")
    change(built, "own.paint_code=red")
    assert built.workspace.bag("mo").clubs[0].standing == "proven"
    change(built, "length_in=44")
    assert built.workspace.bag("mo").clubs[0].standing == "trial"


def test_a_test_of_another_kind_of_club_never_makes_a_club_of_the_slot(built: Desk) -> None:
    where = setup.start_test(built, "mo", "3w", values=parse_settings(["length_in=43"])).ref
    with pytest.raises(FitlogError, match="is of a wood and 55 holds a wedge"):
        setup.start_test(built, "mo", "55", where, parse_settings(["length_in=35"]))


def test_a_change_says_the_swing_weight_before_and_after(built: Desk) -> None:
    done = edit.bag_set(built, "mo", "driver", parse_settings(["length_in=44"]), "shorter")
    (text,) = (each for each in done.notes if each.startswith("swing weight "))
    assert re.match(r"swing weight [A-G]\d\.\d → [A-G]\d\.\d \(computed.*\)$", text)
    lost = edit.bag_set(built, "mo", "driver", parse_settings(["shaft.model='Unheard 60"]), "another")
    assert "→ not known (the weight of the shaft is not known)" in lost.notes[-1]
    assert not any(
        "swing weight" in each for each in edit.bag_set(built, "mo", "7i", {"lie_deg": 61.0}, "bent").notes
    )
