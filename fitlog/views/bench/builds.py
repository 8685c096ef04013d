"""What a build from stock needs, in parts and grams, and the build as values."""

from collections.abc import Sequence
from typing import Any, NamedTuple

from fitlog.bench.club import AddedWeight, tip_trim_of
from fitlog.bench.components.stock import Build
from fitlog.saving.desk import Desk
from fitlog.views.bench.heads import THIS_HEAD, Port, ports_of
from fitlog.views.bench.parts import as_weight
from fitlog.views.bench.sheet import Sheet
from fitlog.workspace.assignments import Values

_OF_THE_GRIP = ("model", "mass_g", "size", "length_in", "balance_in", "cap_in")  # tape and rib are how it is put on


class Cost(NamedTuple):
    """What a build costs: the changes of the club, its weights, and its mass."""

    changes: tuple[str, ...]
    weights: int
    weights_g: float
    mass_by_g: float | None


def costs(desk: Desk, sheet: Sheet, builds: Sequence[Build]) -> tuple[Cost, ...]:
    """The cost of each build, in parts and grams.

    ``mass_by_g`` is against the club as it is, where that is known.
    """
    setup = sheet.work.setup
    ports = {port.head.part: port for port in ports_of(desk, sheet, True)}
    now = _plain([weight for each in setup.weights if (weight := as_weight(each))])
    out = []
    for build in builds:
        chosen = build.choice
        trim, weights = chosen.tip_trim_in, _weights_of(build, ports.get(chosen.head))
        grams = [each["mass_g"] for each in weights if each["mass_g"] > 0]
        changed = {
            "head": chosen.head not in ("", THIS_HEAD),
            "shaft": chosen.shaft not in ("", setup.shaft.part),
            "tip trim": trim is not None and trim != tip_trim_of(sheet.components.parts),
            "length": chosen.length_in is not None and chosen.length_in != setup.length_in,
            "grip": chosen.grip not in ("", setup.grip.part),
            "weights": weights != now,
        }
        by = None if sheet.sums is None else build.sums.mass_g - sheet.sums.mass_g
        out.append(Cost(tuple(name for name, is_so in changed.items() if is_so), len(grams), sum(grams), by))
    return tuple(out)


def cost_text(cost: Cost) -> str:
    """A cost in words.

    >>> cost_text(Cost(("head", "grip"), 2, 10.0, -2.94))
    'changes head, grip; 2 weights, 10 g in all; the club 2.9 g lighter'
    >>> cost_text(Cost((), 1, 8.0, 0.0))
    'changes nothing; 1 weight of 8 g'
    """
    sentences = [f"changes {', '.join(cost.changes) or 'nothing'}"]
    if cost.weights:
        sentences.append(
            f"1 weight of {cost.weights_g:g} g"
            if cost.weights == 1
            else f"{cost.weights} weights, {cost.weights_g:g} g in all"
        )
    if cost.mass_by_g is not None and abs(cost.mass_by_g) >= 0.05:
        sentences.append(f"the club {abs(cost.mass_by_g):.1f} g {'heavier' if cost.mass_by_g > 0 else 'lighter'}")
    return "; ".join(sentences)


def further_assumptions(sheet: Sheet, builds: Sequence[Build]) -> tuple[str, ...]:
    """What had to be assumed for some of the builds and not for the club itself."""
    sentences = (sheet.work.units.sentence(each) for build in builds for each in build.assumed)
    return tuple(dict.fromkeys(each for each in sentences if each not in sheet.assumed))


def build_values(desk: Desk, sheet: Sheet, build: Build) -> Values:
    """What a build changes in the setup, by dotted key, for ``bench.with_values``."""
    out: Values = {}
    chosen, setup = build.choice, sheet.work.setup
    port = _port_of(desk, sheet, chosen.head)
    if chosen.head and chosen.head != THIS_HEAD:
        part: Any = desk.workspace.part("heads", chosen.head).component
        out["head"] = None
        out |= {f"head.{key}": value for key, value in part._asdict().items() if value is not None}
        out["head.part"] = chosen.head
        out |= dict.fromkeys(("loft_deg", "lie_deg", "face_deg", "sleeve"))
    if chosen.shaft and chosen.shaft != setup.shaft.part:
        part = desk.workspace.part("shafts", chosen.shaft).component
        out["shaft"] = None
        out |= {f"shaft.{key}": value for key, value in part._asdict().items() if value is not None}
        out["shaft.part"] = chosen.shaft
    if chosen.tip_trim_in is not None:
        out["shaft.tip_trim_in"] = chosen.tip_trim_in
    if chosen.length_in is not None:
        out["length_in"] = chosen.length_in
    if chosen.grip and chosen.grip != setup.grip.part:
        part = desk.workspace.part("grips", chosen.grip).component
        out |= {f"grip.{key}": getattr(part, key) for key in _OF_THE_GRIP}
        out["grip.part"] = chosen.grip
    weights = _weights_of(build, port)
    if weights != _plain([weight for each in setup.weights if (weight := as_weight(each))]):
        out["weights"] = weights or None
    return out


def _port_of(desk: Desk, sheet: Sheet, head: str) -> Port | None:
    return next((port for port in ports_of(desk, sheet, True) if port.head.part == head), None)


def _weights_of(build: Build, port: Port | None) -> list[dict[str, Any]]:
    """The weights after the build: the open port, the others, tip and butt."""
    out: list[AddedWeight] = []
    if port and port.place:
        mass = next((weight.mass_g for weight in build.parts.weights if weight.place == "head"), 0.0)
        out += [AddedWeight(port.place, mass), *port.other_weights] if mass else [*port.other_weights]
    out += [weight for weight in build.parts.weights if weight.place != "head"]
    return _plain(out)


def _plain(weights: Sequence[AddedWeight]) -> list[dict[str, Any]]:
    return [{key: value for key, value in weight._asdict().items() if value is not None} for weight in weights]
