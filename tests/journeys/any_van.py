"""A van that does anything there is to do, as a program of its own: each action is told aloud once it is done."""

import random
from collections.abc import Callable

from fitlog.actions.bag import edit
from fitlog.actions.history import proven, restore, season, undo
from fitlog.actions.session import setup, shots
from fitlog.actions.verdict import decide
from fitlog.actions.workspace import commit_edits
from fitlog.records.errors import FitlogError
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.workspace.assignments import parse_settings


def actions(desk: Desk, chance: random.Random, number: int) -> list[Callable[[], object]]:
    """What can be done, with values drawn at random."""
    slot = chance.choice(["driver", "3w", "7i"])
    why = f"round {number}"
    length = parse_settings([f"length_in={36 + chance.randrange(60) / 8}"])
    return [
        lambda: edit.bag_set(desk, "mo", slot, length, why),
        lambda: edit.set_makeup(desk, "mo", chance.choice(["links", "woods"]), [slot], why),
        lambda: edit.set_ball(desk, "mo", parse_settings([f'model="Plum {number}"']), why),
        lambda: proven.mark_proven(desk, "mo", [slot], why),
        lambda: restore.restore(desk, "mo", [slot], "last-proven", why),
        lambda: season.close_season(desk, "mo", f"{number}"),
        lambda: undo.undo(desk),
        lambda: setup.start_test(desk, "mo", slot, values=length).saved,
        lambda: shots.add_shots(desk, "mo", "last", [{"carry_yd": 200.0 + number % 50}]),
        lambda: decide.give_verdict(desk, "mo", "last", chance.choice(["keep", "reject", "retest"]), why),
        lambda: commit_edits.commit_hand_edits(desk, why),
        lambda: exchange.sync(desk),
    ]


def act(root: str, seed: int) -> None:
    """Act until killed."""
    chance = random.Random(seed)
    with Desk(root) as desk:
        save.recover(desk)
        number = 0
        while True:
            number += 1
            try:
                done = chance.choice(actions(desk, chance, seed * 1000 + number))()
            except FitlogError:
                continue
            except Exception as error:
                print(f"failed {type(error).__name__}: {error}", flush=True)
                continue
            if commit := getattr(done, "commit", ""):
                print(f"done {commit}", flush=True)
