"""A workspace with parts in stock and a driver that is fully known."""

from __future__ import annotations

from pathlib import Path

from fitlog.actions.bag.edit import bag_set
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings

PARTS = {
    "heads/oak-9": 'model = "Oak 9"\nkind = "wood"\nloft_deg = 9.0\nlie_deg = 58.0\nmass_g = 196.0\nstock = 1\n'
    "balance_in = 1.0\nbore_to_ground_in = 1.75\nvolume_cc = 455\nsleeve_mass_g = 6.0\n"
    'weights = [{place = "back", mass_g = 6.0}, {place = "heel", mass_g = 2.0}]\n'
    '[[setting]]\nposition = "N"\n[[setting]]\nposition = "L+"\nloft_deg = 1.0\nlie_deg = 0.5\nface_deg = -1.0\n',
    "heads/oak-10": 'model = "Oak 10"\nkind = "wood"\nloft_deg = 10.0\nmass_g = 199.0\n'
    'weights = [{place = "back", mass_g = 10.0}]\n',
    "heads/alder-15": 'model = "Alder 15"\nkind = "wood"\nloft_deg = 15.0\nmass_g = 214.0\n',
    "heads/elm-7": 'model = "Elm 7"\nkind = "iron"\nloft_deg = 33.0\nmass_g = 268.0\n',
    "heads/gone-9": 'model = "Gone 9"\nkind = "wood"\nloft_deg = 9.0\nmass_g = 201.0\nstock = 0\n',
    "shafts/birch-60": 'model = "Birch 60"\nmass_g = 62.0\nraw_length_in = 46.0\nbalance_in = 22.5\n'
    'tip = "parallel"\nparallel_in = 3.0\nleast_parallel_in = 1.5\nweights = [{place = "tip", mass_g = 2.0}]\n',
    "shafts/larch-105": 'model = "Larch 105"\nmass_g = 105.0\nraw_length_in = 39.0\ntip = "taper"\n',
    "grips/fen": 'model = "Fen Soft"\nmass_g = 50.0\nlength_in = 10.5\ncap_in = 0.125\n',
    "grips/moor": 'model = "Moor Cord"\nmass_g = 56.0\nlength_in = 10.5\n',
}


def stocked(desk: Desk) -> Desk:
    """The workspace with these parts, and its driver built of them."""
    for name, text in PARTS.items():
        file = Path(desk.root) / "parts" / f"{name}.toml"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text)
    values = ["head.part=oak-9", "shaft.part=birch-60", "shaft.tip_trim_in=0.5", "grip.part=fen", "sleeve.position=N",
              'weights=[{place = "back", mass_g = 8.0}, {place = "heel", mass_g = 2.0}]']  # fmt: skip
    bag_set(desk, "mo", "driver", parse_settings(values), "built")
    return desk
