"""Days of edits in a van, drawn at random."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import strategies as st

from fitlog.actions import player
from fitlog.actions.bag import edit
from fitlog.actions.history import proven
from fitlog.actions.session import setup as session_setup
from fitlog.actions.session import shots
from fitlog.actions.verdict import decide
from fitlog.actions.workspace import create
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving import conflicts
from fitlog.saving.desk import Desk
from fitlog.sync import resolve
from fitlog.workspace.assignments import parse_settings
from tests.conftest import SteadyClock, steady_draw
from tests.sync.vans import BAG, change_club

SLOTS = st.sampled_from(["driver", "3w", "7i", "52"])

EDIT = st.one_of(
    st.tuples(
        st.just("set"), SLOTS, st.sampled_from(["length_in=41", "length_in=42", "lie_deg=58", "head.mass_g=200"])
    ),
    st.tuples(
        st.just("set"), SLOTS, st.sampled_from(['notes="soft"', "shaft.model=Osier 75", "shaft.model=Sedge 80"])
    ),
    st.tuples(st.just("out"), SLOTS, st.just("")),
    st.tuples(st.just("beside"), SLOTS, st.sampled_from(["length_in=40", "length_in=44"])),
    st.tuples(st.just("makeup"), SLOTS, st.sampled_from(["links", "woods"])),
    st.tuples(st.just("proven"), SLOTS, st.just("")),
    st.tuples(st.just("test"), SLOTS, st.sampled_from(["length_in=40", "shaft.model=Osier 75"])),
    st.tuples(st.just("shots"), SLOTS, st.just("")),
    st.tuples(st.just("verdict"), SLOTS, st.sampled_from(["keep", "reject", "retest"])),
    st.tuples(st.just("hand"), SLOTS, st.sampled_from(["# dry mat", "# wet mat"])),
    st.tuples(st.just("choose"), SLOTS, st.sampled_from(["stands", "other"])),
)


def hand(desk: Desk, slot: str, comment: str) -> None:
    path = Path(desk.root, BAG)
    path.write_text(path.read_text().replace(f'slot = "{slot}"\n', f'slot = "{slot}"\n{comment}\n', 1))


def last_ref(desk: Desk) -> str:
    session, _, test = desk.workspace.pick_test("mo", "last")
    return f"{session}#{test.id}"


def take_step(desk: Desk, what: str, slot: str, value: str) -> None:
    """One edit; one that cannot be is refused and changes nothing."""
    steps: dict[str, Callable[[], object]] = {
        "set": lambda: change_club(desk, slot, value),
        "out": lambda: edit.take_out(desk, "mo", slot, "gone"),
        "beside": lambda: edit.bag_set(desk, "mo", slot, parse_settings([value]), "also", as_second=True),
        "makeup": lambda: edit.set_makeup(desk, "mo", value, [slot], "for the links"),
        "proven": lambda: proven.mark_proven(desk, "mo", [slot], "trusted"),
        "test": lambda: session_setup.start_test(desk, "mo", slot, values=parse_settings([value])),
        "shots": lambda: shots.add_shots(desk, "mo", last_ref(desk), [{"carry_yd": 200.0}, {"carry_yd": 210.0}]),
        "verdict": lambda: decide.give_verdict(desk, "mo", "last", value, "so it is"),
        "hand": lambda: hand(desk, slot, value),
        "choose": lambda: [resolve.choose(desk, each.id, value, "decided") for each in conflicts.choices(desk)[:1]],
    }
    try:
        steps[what]()
    except (Refusal, UsageError):
        return


def shots_in(desk: Desk) -> set[str]:
    found = set()
    for session in desk.workspace.sessions("mo"):
        for test in desk.workspace.session("mo", session).test:
            found |= {f"{session}#{test.id} {shot.id}" for shot in test.shots}
    return found


@pytest.fixture(scope="module")
def start(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Desk]:
    """One workspace from which every example's vans are copied."""
    folder = tmp_path_factory.mktemp("start")
    with Desk(str(folder / "ws"), SteadyClock(), steady_draw(), stamp=True) as desk:
        create.init(desk, "van")
        player.add_player(desk, "mo", "Mo Ferrant", "left")
        for slot, length in (("driver", 45), ("3w", 43), ("7i", 37)):
            change_club(desk, slot, f"length_in={length}", "shaft.model=Gorse 70")
        session_setup.start_test(desk, "mo", "3w")
        yield desk
