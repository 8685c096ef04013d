"""Plain calls of a command on the start-up budget, read without argparse, which is a tenth of that budget to load."""

from collections.abc import Sequence
from types import SimpleNamespace


def read(names: Sequence[str], options: dict[str, str], argv: Sequence[str]) -> SimpleNamespace | None:
    """The arguments of a call that gives each of ``names`` once and may give ``options`` (name to default).

    None for anything else, help and mistakes among it: argparse then reads the same line and says what is wrong.

    >>> read(["player"], {"at": ""}, ["mo", "--json", "--at", "2026"])
    namespace(workspace=None, json=True, at='2026', player='mo')
    >>> read(["player"], {"at": ""}, ["mo", "--help"]) is None
    True
    """
    out = SimpleNamespace(workspace=None, json=False, **options)
    given = []
    left = iter(argv)
    for each in left:
        if each == "--json":
            out.json = True
        elif each.startswith("-"):
            name = "workspace" if each == "-w" else each[2:]
            value = next(left, "-")
            if (name != "workspace" and name not in options) or not value or value.startswith("-"):
                return None
            setattr(out, name, value)
        else:
            given.append(each)
    if len(given) != len(names) or not all(given):
        return None
    vars(out).update(zip(names, given, strict=True))
    return out
