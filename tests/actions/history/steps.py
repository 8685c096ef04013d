"""Any steps of a person, and what the workspace then holds."""

from collections.abc import Callable
from pathlib import Path

from hypothesis import strategies as st

from fitlog.actions import player
from fitlog.actions.bag import edit
from fitlog.actions.history import proven, restore
from fitlog.actions.session import setup, shots
from fitlog.actions.verdict import decide
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings

Files = dict[str, bytes]


def files_of(desk: Desk) -> Files:
    root = Path(desk.root)
    return {
        str(path.relative_to(root)): path.read_bytes()
        for path in root.rglob("*")
        if path.is_file() and path.relative_to(root).parts[0] not in (".git", ".fitlog")
    }


def change_club(desk: Desk, slot: str, *values: str, reason: str = "a try") -> None:
    edit.bag_set(desk, "mo", slot, parse_settings(values), reason)


def bag_path(desk: Desk) -> Path:
    return Path(desk.root, "players/mo/bag.toml")


FIRST_COMMITS = 3  # the commits of init, the player and the first club; the last of them is where undoing must lead


def count_states(desk: Desk) -> int:
    """One for the state at the start, and one for each commit since."""
    return len(desk.history.entries()) - FIRST_COMMITS + 1


SLOTS = st.sampled_from(["driver", "3w", "7i", "5h", "52"])


STEP = st.one_of(
    st.tuples(st.just("set"), SLOTS, st.sampled_from([35.0, 43.5, 44.25])),
    st.tuples(st.just("out"), SLOTS, st.none()),
    st.tuples(st.just("beside"), SLOTS, st.sampled_from([41.0, 42.0])),
    st.tuples(st.just("proven"), SLOTS, st.none()),
    st.tuples(st.just("test"), SLOTS, st.sampled_from([40.0, 45.0])),
    st.tuples(st.just("verdict"), SLOTS, st.sampled_from(["keep", "reject", "retest"])),
    st.tuples(st.just("shots"), SLOTS, st.integers(1, 3)),
    st.tuples(st.just("back"), SLOTS, st.integers(0, 5)),
    st.tuples(st.just("carry"), SLOTS, st.booleans()),
    st.tuples(st.just("makeup"), SLOTS, st.just("links")),
    st.tuples(st.just("player"), st.just(""), st.sampled_from(["jo", "lu"])),
)


def take_step(desk: Desk, what: str, slot: str, value: object) -> None:
    """One step; steps that cannot be are refused and change nothing."""
    steps: dict[str, Callable[[], object]] = {
        "set": lambda: change_club(desk, slot, f"length_in={value}"),
        "out": lambda: edit.take_out(desk, "mo", slot, "gone"),
        "beside": lambda: edit.bag_set(
            desk, "mo", slot, parse_settings([f"length_in={value}"]), "also", as_second=True
        ),
        "proven": lambda: proven.mark_proven(desk, "mo", [slot], "trusted"),
        "test": lambda: setup.start_test(desk, "mo", slot, values=parse_settings([f"length_in={value}"])),
        "verdict": lambda: decide.give_verdict(desk, "mo", "last", str(value), "so it is"),
        "shots": lambda: [shots.add_shot(desk, "mo", last_ref(desk), {"carry_yd": 200.0 + n}) for n in range(2)],
        "back": lambda: restore.restore(desk, "mo", [slot], f"HEAD~{value}", "again"),
        "carry": lambda: edit.set_carried(desk, "mo", slot, bool(value), "for today"),
        "makeup": lambda: edit.set_makeup(desk, "mo", str(value), [slot], "links day"),
        "player": lambda: player.add_player(desk, str(value), "Some One", "right"),
    }
    steps[what]()


def last_ref(desk: Desk) -> str:
    session, _, test = desk.workspace.pick_test("mo", "last")
    return f"{session}#{test.id}"
