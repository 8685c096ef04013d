"""A van at work, as a program of its own: saves and shots, each said aloud once it is done."""

from itertools import count

from fitlog.actions.bag import edit
from fitlog.actions.session import setup, shots
from fitlog.records.errors import FitlogError
from fitlog.saving import save
from fitlog.saving.desk import Desk


def log(root: str, player: str, slot: str, what: str, rounds: int) -> None:
    """Log until killed, or for so many rounds."""
    with Desk(root) as desk:
        save.recover(desk)
        where = ""
        for number in count() if rounds == 0 else range(rounds):
            try:
                if what == "shots" or (what == "both" and number % 3):
                    if not where:
                        where = setup.start_test(desk, player, slot).ref
                    shot = shots.add_shot(desk, player, where, {"carry_yd": 200.0 + number % 50})
                    print(f"shot {where} {shot}", flush=True)
                else:
                    done = edit.bag_set(
                        desk, player, slot, {"notes": f"{slot} {number}"}, f"round {number} of {slot}"
                    )
                    print(f"save {done.commit} {slot} {number}", flush=True)
            except FitlogError as error:
                print(f"error {error}", flush=True)
        shots.end_shots(desk)


def save_and_log(root: str, number: int) -> None:
    """A change of the bag, a test with two shots, and the end of the program."""
    with Desk(root) as desk:
        save.recover(desk)
        done = edit.bag_set(desk, "mo", "3w", {"notes": f"{number}"}, f"attempt {number}")
        print(f"save {done.commit}", flush=True)
        where = setup.start_test(desk, "mo", "3w").ref
        for carry in (200.0, 201.0):
            print(f"shot {where} {shots.add_shot(desk, 'mo', where, {'carry_yd': carry})}", flush=True)
        shots.end_shots(desk)
