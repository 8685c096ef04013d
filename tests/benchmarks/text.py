"""The texts of a large workspace's files, written straight as TOML: a TOML writer would take minutes."""

from collections.abc import Sequence
from datetime import date, time
from random import Random

HEADS = ("Alder", "Oak", "Elm", "Tansy", "Crake", "Plover", "Yew", "Linnet", "Hazel", "Teal")
SHAFTS = ("Gorse 50", "Gorse 60", "Gorse 70", "Osier 65", "Osier 75", "Sedge 95", "Sedge 105", "Willow 55")
GRIPS = ("Moss 47", "Moss 50", "Fern 52")
BALLS = ("Wren One", "Wren Two", "Siskin")
_LOFTS = {
    "driver": 9.0,
    "3w": 15.0,
    "5h": 24.0,
    "5i": 26.0,
    "7i": 33.0,
    "9i": 42.0,
    "pw": 46.0,
    "52": 52.0,
    "56": 56.0,
}
SLOTS = tuple(_LOFTS)
_LENGTHS = dict(zip(SLOTS, (45.25, 43.0, 39.5, 38.0, 37.0, 36.0, 35.75, 35.5, 35.25), strict=True))
_CARRIES = dict(zip(SLOTS, (232, 214, 190, 178, 158, 138, 126, 108, 92), strict=True))
REASONS = {
    "keep": ("{n} yd longer and as straight", "held its line in the wind", "the miss is {n} yd tighter"),
    "reject": (
        "starts {n} yards left of the reference",
        "spins too much into the wind",
        "loses {n} yd off the toe",
        "launches too low with this tip trim",
        "felt harsh and lost ball speed",
        "carry short of the {n} yd asked for",
    ),
    "retest": ("too few shots to tell", "tired by the end of the hour", "wind came up, hit {n} more on a calm day"),
}  # fmt: skip
_DECISIONS = ("reject",) * 5 + ("keep",) * 2 + ("retest",) * 2 + ("",)


def part_texts() -> dict[str, str]:
    """Every part in stock as its file."""
    out = {}
    for shelf, models in (("heads", HEADS), ("shafts", SHAFTS), ("grips", GRIPS), ("balls", BALLS)):
        for model in models:
            text = f'#:schema ../../schemas/{shelf[:-1]}.schema.json\n\nmodel = "{model}"\n'
            out[f"parts/{shelf}/{part_id(model)}.toml"] = text
    return out


def part_id(model: str) -> str:
    """The id of a model's part file."""
    return model.lower().replace(" ", "-")


def player_text(name: str, random: Random) -> str:
    """A player file."""
    note = f'notes = "{random.choice(("likes flat lies", "never wants the left miss", "plays by feel"))}"\n'
    hand = "left" if random.random() < 0.12 else "right"
    return (
        f'#:schema ../../schemas/player.schema.json\n\nname = "{name}"\nhand = "{hand}"\n{note}\n'
        '[[criterion]]\nslot = "driver"\nmetric = "carry_yd"\nat_least = 232\n'
    )


def _setup(slot: str, head: str, shaft: str, grip: str, trim: float, length: float, prefix: str = "") -> str:
    lines = [
        f'head.part = "{part_id(head)}"',
        f'head.model = "{head}"',
        f"head.loft_deg = {_LOFTS[slot]}",
        f"head.mass_g = {198 + len(head)}.5",
        f'shaft.part = "{part_id(shaft)}"',
        f'shaft.model = "{shaft}"',
        f"shaft.mass_g = {shaft.split()[1]}.0",
        f"shaft.tip_trim_in = {trim}",
        f'grip.model = "{grip}"',
        f"grip.mass_g = {grip.split()[1]}.0",
        f"length_in = {length}",
    ]
    return "".join(f"{prefix}{line}\n" for line in lines)


def bag_text(player: str, kept: Sequence[tuple[str, str]], version: int) -> str:
    """A bag after so many changes; the clubs rest on the last tests that were kept for them."""
    if not version:
        return '#:schema ../../schemas/bag.schema.json\n\nseason = "2016"\n'
    random = Random(f"{player} {version // 4}")
    evidence = dict(kept)
    ball = BALLS[Random(f"{player} ball {version // 6}").randrange(3)]
    out = [f'#:schema ../../schemas/bag.schema.json\n\nseason = "2026"\nball.model = "{ball}"\nball.year = 2025\n']
    for number, slot in enumerate(SLOTS):
        length = _LENGTHS[slot] - (0.25 if version % len(SLOTS) == number else 0)
        standing = "proven" if random.random() < 0.6 else "trial"
        out.append(f'\n[[club]]\nslot = "{slot}"\nstanding = "{standing}"\nsince = 2025-04-{number + 10}\n')
        out.append(_setup(slot, random.choice(HEADS), random.choice(SHAFTS), random.choice(GRIPS), 0.5, length))
        if slot in evidence:
            out.append(f'evidence = ["{evidence[slot]}"]\n')
    return "".join(out)


def session_text(day: date, begun: time, place: int, random: Random) -> tuple[str, str, str, str, str]:
    """A session file of about 3.6 kB, and its slot, candidate, decision and reason."""
    slot = random.choice(SLOTS)
    head, shaft, grip = random.choice(HEADS), random.choice(SHAFTS), random.choice(GRIPS)
    trim = random.choice((0.0, 0.5, 1.0, 1.5))
    decision = random.choice(_DECISIONS)
    reason = random.choice(REASONS[decision]).format(n=random.randrange(2, 12)) if decision else ""
    note = random.choice(("", "", "", 'notes = "gusts from the left, mat 3"\n', 'notes = "after the rain"\n'))
    ids = random.sample(("b4t", "c7m", "d2q", "f9x", "g3z", "h8w"), 2)
    out = [
        f'#:schema ../../../schemas/session.schema.json\n\ndate = {day}\nstarted = {begun}\nseason = "{day.year}"\n',
        f'place = "north range"\n{note}ball.model = "{BALLS[place * 3 // 100 % 3]}"\nball.year = 2025\n',
        "air.temperature_c = 17.5\nair.pressure_hpa = 1012.0\n",
    ]
    for test, role in zip(ids, ("reference", "candidate"), strict=True):
        out.append(f'\n[[test]]\nid = "{test}"\nslot = "{slot}"\nrole = "{role}"\nmade_from = "bag"\n')
        tried = (head, shaft, grip, trim) if role == "candidate" else ("Oak", "Gorse 60", "Moss 50", 0.5)
        if role == "candidate":
            out.append('criteria = [\n    {metric = "offline_yd", within = 4},\n]\n')
        out.append(_setup(slot, *tried, _LENGTHS[slot], "setup."))
        out.append("shots = [\n" + "".join(_shot(slot, begun, number, random) for number in range(8)) + "]\n")
    if decision:
        out.append(f'verdict.decision = "{decision}"\nverdict.reason = "{reason}"\nverdict.on = {day}\n')
        out.append('verdict.method = "evidence 1"\nverdict.numbers.shots = 8\nverdict.numbers.reference_shots = 8\n')
        out.append(f"verdict.numbers.difference.carry_yd = {random.uniform(-9, 9):.3f}\n")
    return "".join(out), slot, ids[1], decision, reason


def _shot(slot: str, begun: time, number: int, random: Random) -> str:
    carry = _CARRIES[slot] + random.gauss(0, 6)
    letters = "".join(random.choices("bcdfghjkmnpqrstvwxyz", k=4))
    return (
        f'    {{id = "{letters}", at = {begun.hour:02d}:{begun.minute:02d}:{number * 7:02d}, '
        f"ball_speed_mph = {_ball_speed(carry):.1f}, launch_deg = {random.gauss(14, 1.2):.1f}, "
        f"spin_rpm = {random.gauss(3000, 300):.0f}, carry_yd = {carry:.1f}, "
        f"offline_yd = {random.gauss(1, 9):.1f}, strike_x_mm = {random.gauss(0, 7):.0f}}},\n"
    )


def _ball_speed(carry: float) -> float:
    """A ball speed, mph, that a carry in yards is plausible for: straight lines through printed tour averages."""
    return carry * 0.75 if carry < 136 else 102 + (carry - 136) * 0.468
