"""A workspace with parts in stock and a driver that is fully known."""

from __future__ import annotations

from pathlib import Path

from fitlog.actions.bag.edit import bag_set
from fitlog.saving.desk import Desk
from fitlog.views.bench.listing import Field, fields, lay
from fitlog.views.bench.setup import lay_out
from fitlog.views.bench.sheet import work_out
from fitlog.views.bench.stock_solver import CHOICES
from fitlog.workspace.assignments import parse_settings

EVERY_CHOICE = frozenset(CHOICES)
PARTS = {
    "heads/oak-8": 'model = "Oak 8"\nkind = "wood"\nloft_deg = 8.0\nlie_deg = 58.0\nmass_g = 196.0\nstock = 1\n'
    "balance_in = 1.0\nbore_to_ground_in = 1.75\nvolume_cc = 455\nsleeve_mass_g = 6.0\n"
    'weights = [{place = "back", mass_g = 6.0}, {place = "heel", mass_g = 2.0}]\n'
    '[[setting]]\nposition = "mid"\n[[setting]]\nposition = "high"\nloft_deg = 1.0\nlie_deg = 0.5\nface_deg = -1.0\n',
    "heads/oak-10": 'model = "Oak 10"\nkind = "wood"\nloft_deg = 10.0\nmass_g = 199.0\n'
    'weights = [{place = "back", mass_g = 10.0}]\n',
    "heads/alder-16": 'model = "Alder 16"\nkind = "wood"\nloft_deg = 16.0\nmass_g = 214.0\n',
    "heads/elm-7": 'model = "Elm 7"\nkind = "iron"\nloft_deg = 33.0\nmass_g = 268.0\n',
    "heads/gone-8": 'model = "Gone 8"\nkind = "wood"\nloft_deg = 8.0\nmass_g = 201.0\nstock = 0\n',
    "shafts/gorse-60": 'model = "Gorse 60"\nmass_g = 62.0\nraw_length_in = 46.0\nbalance_in = 22.5\n'
    'tip = "parallel"\nparallel_in = 3.0\nleast_parallel_in = 1.5\nweights = [{place = "tip", mass_g = 2.0}]\n',
    "shafts/sedge-105": 'model = "Sedge 105"\nmass_g = 105.0\nraw_length_in = 39.0\ntip = "taper"\n',
    "grips/abb": 'model = "Abb Soft"\nmass_g = 50.0\nlength_in = 10.5\ncap_in = 0.125\n',
    "grips/jute": 'model = "Jute Cord"\nmass_g = 56.0\nlength_in = 10.5\n',
}


def stocked(desk: Desk) -> Desk:
    """The workspace with these parts, and its driver built of them."""
    for name, text in PARTS.items():
        file = Path(desk.root) / "parts" / f"{name}.toml"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text)
    values = [
        "head.part=oak-8",
        "shaft.part=gorse-60",
        "shaft.tip_trim_in=0.5",
        "grip.part=abb",
        "sleeve.position=mid",
        'weights=[{place = "back", mass_g = 8.0}, {place = "heel", mass_g = 2.0}]',
    ]
    bag_set(desk, "mo", "driver", parse_settings(values), "built")
    return desk


def driver_field(desk: Desk, key: str) -> Field:
    laid = lay(desk, lay_out(desk, "mo", "driver"))
    return next(each for each in fields(laid, work_out(laid.work)) if each.key == key)


def mark(desk: Desk, head: str, hand: str) -> None:
    """Write the hand into a head's part file."""
    file = Path(desk.root) / f"parts/heads/{head}.toml"
    file.write_text(f'{file.read_text()}hand = "{hand}"\n' if "[[" not in file.read_text() else
                    f'hand = "{hand}"\n{file.read_text()}')  # fmt: skip
