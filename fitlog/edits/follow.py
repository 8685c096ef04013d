"""What follows from a change of a club, with the parts that are in stock."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from fitlog.coherence.club.complete import SHELF_OF
from fitlog.coherence.club.consequences import Consequences, consequences
from fitlog.records.errors import FitlogError, Refusal
from fitlog.records.models.part import fitting_models
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import Values

if TYPE_CHECKING:
    from fitlog.records.models.part import Part


AS_TYPED = "'"  # before a model: it is taken as it stands, whatever is in stock


def check_models(desk: Desk, values: Values) -> Values:
    """A club's values with each typed model resolved to the part that is meant.

    ``'`` before one takes it as it stands.

    Raises Refusal for a model that only begins to name parts in stock: a new name would erase what the old part says.
    """
    out = dict(values)
    for component, shelf in SHELF_OF.items():
        text, part = values.get(f"{component}.model"), f"{component}.part"
        if not isinstance(text, str) or part in values:
            continue
        if text.startswith(AS_TYPED):
            out |= {f"{component}.model": text.removeprefix(AS_TYPED).strip(), part: None}
            continue
        models = _models(desk, shelf)
        found = fitting_models(text, models)
        exact = any(text.strip().casefold() in (each, models[each].casefold()) for each in found)
        if len(found) > 1 or (found and not exact):
            names = ", ".join(f"{models[each]} ({each})" for each in found[:5])
            raise Refusal(
                f"{component}.model: '{text}' may mean {names}",
                do=f'write {part}={found[0]}, or {component}.model="{AS_TYPED}{text}" for one that is not in stock',
            )
    return out


def _models(desk: Desk, shelf: str) -> dict[str, str]:
    out = {}
    for name in desk.workspace.parts(shelf):
        try:
            out[name] = desk.workspace.part(shelf, name).component.model or name
        except FitlogError:  # named by check
            continue
    return out


def follow(desk: Desk, before: Mapping[str, Any], changes: Values) -> Consequences:
    """The values asked for with all that follows from them, from the parts in stock.

    before: the club's values by dotted key, ``readings.…`` among them.
    Raises Refusal for a part id that is not in stock.
    """

    def find(shelf: str, model: str) -> "tuple[str, Part] | None":
        names = desk.workspace.parts(shelf)
        if model in names:
            return model, desk.workspace.part(shelf, model)
        fitting = []
        for name in names:
            try:
                part = desk.workspace.part(shelf, name)
            except FitlogError:
                continue
            if (part.component.model or "").casefold() == model.strip().casefold():
                fitting.append((name, part))
        return fitting[0] if len(fitting) == 1 else None

    return consequences(before, changes, find)
