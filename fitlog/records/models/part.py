"""Parts in stock.

A head, shaft, grip or ball model with its published or measured data.
"""

from collections.abc import Mapping
from typing import Annotated, Any, NamedTuple

from fitlog.records.models.bag import Ball
from fitlog.records.models.setup import Grip, Head, Shaft, Weight
from fitlog.records.schema.fields import Fault, Items, Number, Sub, Text, read_record, table_schema


class Setting(NamedTuple):
    """One sleeve position and what it does, from its part's table or the bench."""

    position: Annotated[str, Text("sleeve position")]
    loft_deg: Annotated[float | None, Number("loft change", -6, 6, "1.0")] = None
    lie_deg: Annotated[float | None, Number("lie change", -6, 6, "0.75")] = None
    face_deg: Annotated[float | None, Number("face change (open +)", -6, 6, "-0.5")] = None
    length_in: Annotated[float | None, Number("length change", -2, 2, "0.125")] = None


class Stock(NamedTuple):
    """What every part file may say beside the component's own keys."""

    stock: Annotated[int | None, Number("in stock", 0, 10000, "2", whole=True)] = None
    kind: Annotated[str | None, Text("kind of club")] = None
    hand: Annotated[str | None, Text("hand", options=("right", "left"))] = None
    sleeve_mass_g: Annotated[float | None, Number("sleeve weight", 0, 30, "6")] = None
    weights: Annotated[tuple[Weight, ...], Items("weights", (Sub("weight", Weight),))] = ()
    setting: Annotated[tuple[Setting, ...], Items("settings", (Sub("setting", Setting),))] = ()
    least_parallel_in: Annotated[float | None, Number("least parallel section left", 0, 12, "1.5")] = None
    parallel_in: Annotated[float | None, Number("parallel tip section", 0, 20, "5")] = None
    notes: Annotated[str | None, Text("notes")] = None


SHELVES: dict[str, type] = {"heads": Head, "shafts": Shaft, "grips": Grip, "balls": Ball}


class Part(NamedTuple):
    """One part file: the component's own record and what the shelf says of it."""

    component: Head | Shaft | Grip | Ball
    stock: Stock
    raw: Mapping[str, Any]


def fitting_models(text: str, models: Mapping[str, str]) -> list[str]:
    """The ids of the parts that a typed model fits.

    The one so called, else those whose model has all its words.

    models: each part's model by its id.

    >>> shelf = {"withy-60": "Withy 60", "withy-65": "Withy 65"}
    >>> fitting_models("withy 65", shelf), fitting_models("WITHY", shelf)
    (['withy-65'], ['withy-60', 'withy-65'])
    """
    typed = " ".join(text.casefold().split())
    exact = [part for part, model in models.items() if typed in (part, " ".join(model.casefold().split()))]
    words = typed.split()
    fitting = [part for part, model in models.items() if words and all(each in model.casefold() for each in words)]
    return exact or fitting


def read_part(shelf: str, table: Mapping[str, Any], faults: list[Fault]) -> Part:
    """A part from its file's table; a part has a model."""
    record = SHELVES[shelf]
    component: Any = read_record(record, table, (), faults, Stock)
    stock = read_record(Stock, table, (), faults, record)
    if "model" not in table:
        faults.append(Fault(("model",), "this key is missing", 'add model = "…"'))
    return Part(component, stock, table)


def part_schema(shelf: str) -> dict[str, Any]:
    """JSON Schema of a part file."""
    out = table_schema(SHELVES[shelf], Stock)
    out["required"] = ["model"]
    return out
