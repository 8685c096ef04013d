"""What a shell may offer: players, slots, keys, sessions, tests.

This module is loaded only while completing.
"""

import os
from argparse import Namespace
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from fitlog.records.errors import FitlogError

if TYPE_CHECKING:
    from fitlog.saving.desk import Workspace


def _workspace(args: Namespace) -> "Workspace | None":
    from fitlog.saving.desk import Workspace
    from fitlog.views.workspace.location import find_root

    try:
        return Workspace(find_root(os.getcwd(), getattr(args, "workspace", None)))
    except FitlogError:
        return None


def _player(args: Namespace) -> tuple["Workspace", str] | None:
    workspace = _workspace(args)
    try:
        return (workspace, workspace.pick_player(args.player)) if workspace else None
    except (FitlogError, AttributeError, TypeError):
        return None


def players(parsed_args: Namespace, **_: Any) -> list[str]:
    """The ids of the players."""
    workspace = _workspace(parsed_args)
    return workspace.players() if workspace else []


def slots(parsed_args: Namespace, **_: Any) -> list[str]:
    """The slots of the player's bag that are not given yet.

    Each club of a shared slot by its address too.
    """
    found = _player(parsed_args)
    try:
        clubs = found[0].bag(found[1]).clubs if found else ()
    except FitlogError:
        return []
    given = getattr(parsed_args, "slots", None) or ()
    return [each for club in clubs for each in dict.fromkeys((club.slot, club.address)) if each not in given]


def seasons(parsed_args: Namespace, **_: Any) -> list[str]:
    """The season that can be closed: the bag's own."""
    found = _player(parsed_args)
    try:
        season = found[0].bag(found[1]).season if found and parsed_args.what == "close" else None
    except FitlogError:
        return []
    return [season] if season else []


def sessions(parsed_args: Namespace, **_: Any) -> list[str]:
    """The player's sessions, and ``last``."""
    found = _player(parsed_args)
    return ["last", *reversed(found[0].sessions(found[1]))] if found else []


def tests(parsed_args: Namespace, **_: Any) -> list[str]:
    """The addresses of the tests of the player's latest sessions, and ``last``."""
    found = _player(parsed_args)
    out = ["last"]
    for name in list(reversed(found[0].sessions(found[1])))[:20] if found else ():
        try:
            out += [f"{name}#{test.id}" for test in found[0].session(found[1], name).test] if found else []
        except FitlogError:
            continue
    return out


def shots(parsed_args: Namespace, **_: Any) -> list[str]:
    """The ids of the test's shots."""
    found = _player(parsed_args)
    try:
        return [shot.id for shot in found[0].pick_test(found[1], parsed_args.test)[2].shots] if found else []
    except (FitlogError, AttributeError, TypeError):
        return []


def bases(parsed_args: Namespace, **context: Any) -> list[str]:
    """What a test may start from."""
    return ["bag", "blank", *tests(parsed_args, **context)]


def restore_points(parsed_args: Namespace, **_: Any) -> list[str]:
    """What one may go back to without looking it up."""
    return ["last-proven"] if hasattr(parsed_args, "to") else []


def importers(parsed_args: Namespace, **_: Any) -> list[str]:
    """The ids of the importer maps."""
    workspace = _workspace(parsed_args)
    return workspace.importers() if workspace else []


def venues(parsed_args: Namespace, **_: Any) -> list[str]:
    """The ids of the venues."""
    workspace = _workspace(parsed_args)
    return workspace.venues() if workspace else []


def swings(parsed_args: Namespace, **_: Any) -> list[str]:
    """The player's own names for swings."""
    found = _player(parsed_args)
    try:
        return list(found[0].player(found[1]).swings) if found else []
    except FitlogError:
        return []


def keys(parsed_args: Namespace, **_: Any) -> list[str]:
    """The dotted keys of this club, then every other one of a club and of readings."""
    from fitlog.records.models.bag import Readings
    from fitlog.records.models.setup import Setup

    known = [*_keys(Setup), "standing", "carried", "kind", "since", *(f"readings.{key}" for key in _keys(Readings))]
    own = [key for key in _club_keys(parsed_args) if key not in _PLACE_KEYS]
    return list(dict.fromkeys([*own, *known]))


_PLACE_KEYS = ("slot", "id", "evidence")  # not set as values


def _club_keys(args: Namespace) -> Iterable[str]:
    from fitlog.records.models.bag import choose_club
    from fitlog.records.schema.dotted_keys import flatten

    found = _player(args)
    try:
        return (
            [key for key, _ in flatten(choose_club(found[0].bag(found[1]), args.slot, found[1]).raw)] if found else []
        )
    except (FitlogError, AttributeError, TypeError):
        return []


def _keys(record: type) -> list[str]:
    from fitlog.records.schema.fields import Sub, kinds_of

    out: list[str] = []
    for key, kind in kinds_of(record).items():
        out += [f"{key}.{each}" for each in _keys(kind.record)] if isinstance(kind, Sub) else [key]
    return out


def settings(parsed_args: Namespace, **context: Any) -> list[str]:
    """KEY= for every key."""
    return [f"{key}=" for key in keys(parsed_args, **context)]


def session_settings(**_: Any) -> list[str]:
    """KEY= for what is said of a session as a whole."""
    from fitlog.records.models.session import Session

    return [f"{key}=" for key in _keys(Session) if key != "test"]


def venue_settings(**_: Any) -> list[str]:
    """KEY= for every key of a venue."""
    from fitlog.records.models.venue import Venue

    return [f"{key}=" for key in _keys(Venue)]


def ball_settings(**_: Any) -> list[str]:
    """KEY= for every key of a ball."""
    from fitlog.records.models.bag import Ball

    return [f"{key}=" for key in _keys(Ball)]


def measures(**_: Any) -> list[str]:
    """The measured quantities of a shot."""
    from fitlog.records.models.session import MEASURES

    return list(MEASURES)


def criteria(**_: Any) -> list[str]:
    """METRIC:LIMIT= for every pair."""
    from fitlog.records.models.session import LIMITS, MEASURES

    return [f"{metric}:{limit}=" for metric in MEASURES for limit in LIMITS]


def parts(parsed_args: Namespace, **_: Any) -> list[str]:
    """The ids of the parts in stock."""
    from fitlog.records.models.part import SHELVES

    workspace = _workspace(parsed_args)
    return [name for shelf in SHELVES for name in workspace.parts(shelf)] if workspace else []


def part_settings(**_: Any) -> list[str]:
    """KEY= for every key of a part."""
    from fitlog.records.models.part import SHELVES, Stock

    known = dict.fromkeys(key for record in (*SHELVES.values(), Stock) for key in _keys(record))
    return [f"{key}=" for key in known if key not in ("part", "setting")]


def workspace(**_: Any) -> list[str]:
    """KEY= for every key of the workspace."""
    from fitlog.views.workspace.settings import setting_keys

    return [f"{key}=" for key in setting_keys()]


def player_settings(parsed_args: Namespace, **context: Any) -> list[str]:
    """KEY= for every key of a player, the targets of each slot of the bag among them."""
    from fitlog.records.models.player import STEP_CLUBS, Player, StepTarget, Target

    own = [key for key in _keys(Player) if key not in ("target", "step", "criterion")]
    targets = [f"target.{slot}.{key}" for slot in slots(parsed_args, **context) for key in Target._fields[1:]]
    steps = [f"step.{clubs}.{key}" for clubs in STEP_CLUBS for key in StepTarget._fields[1:]]
    return [f"{key}=" for key in (*own, *targets, *steps)]
