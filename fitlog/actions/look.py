"""Looking back: what changed, when, by whom and why; a bag beside another; a value and its past."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any, NamedTuple

from fitlog.actions.desk import Desk
from fitlog.history import goback
from fitlog.history.changes import changes, changes_of
from fitlog.history.meaning import Difference, bag_differences, file_differences
from fitlog.history.message import Entry
from fitlog.history.why import Step, club_in, since, why
from fitlog.records.bag import one_club
from fitlog.records.errors import UsageError
from fitlog.records.fields import flat
from fitlog.workspace.layout import bag_file, kind_of_file

PAGE = 40


class Event(NamedTuple):
    """One commit that concerns a player, with its differences by meaning."""

    entry: Entry
    differences: tuple[Difference, ...]

    @property
    def when(self) -> datetime:
        """When it was committed."""
        return self.entry.when


def timeline(desk: Desk, player: str, slot: str = "", limit: int = PAGE, skip: int = 0) -> list[Event]:
    """The player's changes, newest first; with a slot, those that touch it."""
    player = desk.workspace.pick_player(player)
    slot = slot.partition("#")[0]
    folder = f"players/{player}"
    if not slot:
        found = changes(desk.history, folder, limit, skip)
        return [Event(entry, tuple(_said(desk, entry, files))) for entry, files in found]
    out: list[Event] = []
    start = 0
    while len(out) < skip + limit:
        entries = desk.history.entries([folder], limit=PAGE * 2, skip=start)
        out += _of_slot(desk, entries, folder, slot, skip + limit - len(out))
        start += len(entries)
        if len(entries) < PAGE * 2:
            break
    return out[skip : skip + limit]


def _of_slot(desk: Desk, entries: Sequence[Entry], folder: str, slot: str, most: int) -> list[Event]:
    """Those of the commits that touch a slot; one that names no slots (an edit by hand) is looked into."""
    named = [entry.commit for entry in entries if slot in entry.slots or not entry.slots]
    out: list[Event] = []
    for start in range(0, len(named), most):
        for entry, files in changes_of(desk.history, named[start : start + most], folder):
            event = Event(entry, tuple(_said(desk, entry, files)))
            if entry.slots or any(each.place.partition("#")[0] == slot for each in event.differences):
                out.append(event)
        if len(out) >= most:
            break
    return out[:most]


def differences_of(desk: Desk, entry: Entry, player: str = "") -> list[Difference]:
    """What one commit changed, in golf words; with a player, in that player's files."""
    files = desk.history.files_of(entry.commit)
    return _said(desk, entry, [each for each in files if not player or each[0].startswith(f"players/{player}/")])


def _said(desk: Desk, entry: Entry, files: Iterable[tuple[str, str]]) -> list[Difference]:
    out: list[Difference] = []
    for name, how in files:
        kind, names = kind_of_file(name)
        if not kind:
            continue
        old = {} if how == "A" else desk.history.table_at(entry.commit + "^", name)
        new = {} if how == "D" else desk.history.table_at(entry.commit, name)
        found = file_differences(kind, old, new)
        if kind == "session":
            found = [each._replace(place=each.place.replace("test ", f"{names[1]}#")) for each in found]
        elif kind != "bag":
            found = [each._replace(place=each.place or kind) for each in found]
        out += found
    return out


def raw_diff(desk: Desk, commit: str, player: str = "") -> str:
    """The commit as git shows it."""
    return desk.history.raw_diff(commit, [f"players/{player}"] if player else [])


class Comparison(NamedTuple):
    """Two states of a bag and what differs between them."""

    player: str
    old_said: str
    new_said: str
    differences: tuple[Difference, ...]


def diff(desk: Desk, player: str, old: str, new: str = "") -> Comparison:
    """A bag at one revision, date or season beside another (today's file, where none is given).

    Beside a season, that the season is another one is no news.
    """
    player = desk.workspace.pick_player(player)
    name = bag_file(player)
    before, before_said = _bag_at(desk, player, old)
    after, after_said = _bag_at(desk, player, new) if new else (desk.workspace.load(name).table, "now")
    current = desk.workspace.bag(player).season
    if any(each and (each == current or goback.season_end(desk.history, [name], each)) for each in (old, new)):
        before, after = ({key: value for key, value in each.items() if key != "season"} for each in (before, after))
    return Comparison(player, before_said, after_said, tuple(bag_differences(before, after)))


def _bag_at(desk: Desk, player: str, wanted: str) -> tuple[Mapping[str, Any], str]:
    if wanted == desk.workspace.bag(player).season:
        return desk.workspace.load(bag_file(player)).table, f"season {wanted}, now"
    commit, said = goback.find_revision(desk.history, [bag_file(player)], wanted)
    return desk.history.table_at(commit, bag_file(player), sure=True), said


class Because(NamedTuple):
    """A value, and the chain of changes that led to it, newest first."""

    player: str
    slot: str
    key: str
    value: Any
    steps: tuple[Step, ...]


def because(desk: Desk, player: str, wanted: str, key: str) -> Because:
    """Why a club's value is what it is.

    Raises UsageError for a club or a key that is not there and never was.
    """
    player = desk.workspace.pick_player(player)
    name = bag_file(player)
    club = one_club(desk.workspace.bag(player), wanted, player)
    now = club_in(desk.workspace.load(name).table, club.slot, club.id) or {}
    steps = why(desk.history, name, club.slot, club.id, key)
    values = dict(flat(now))
    if key not in values and not steps:
        raise UsageError(
            f"the {wanted} of {player} has no '{key}', and never had", do="its keys are " + ", ".join(sorted(values))
        )
    value = values.get(key)
    committed = club_in(desk.history.table_at("HEAD", name), club.slot, club.id) or {}
    if dict(flat(committed)).get(key) == value:
        # of two vans' changes the later one is not always the one that stands
        standing = _first(steps, value)
        steps.sort(key=lambda step: step is not standing)
    elif (steps[0].new if steps else None) != value:  # changed by hand and not committed yet
        edit = Entry("", (), desk.now(), "", "edited by hand, not committed yet", action="edit")
        steps.insert(0, Step(edit, steps[0].new if steps else None, value))
    return Because(player, club.address, key, value, tuple(steps))


def _first(steps: Sequence[Step], value: Any) -> Step | None:
    return next((step for step in steps if step.new == value), None)


def origins(desk: Desk, player: str, slot: str, club_id: str) -> dict[str, Step]:
    """For each value of a club, the change that gave it."""
    return since(desk.history, bag_file(player), slot, club_id)


def tests_of(desk: Desk, refs: Sequence[str], player: str) -> list[str]:
    """Each test address with its verdict in words; a test that cannot be found says so."""
    out = []
    for each in refs:
        try:
            _, _, test = desk.workspace.pick_test(player, each)
            said = f"{test.verdict.decision}: {test.verdict.reason}" if test.verdict else "no verdict yet"
        except UsageError:
            said = "not found"
        out.append(f"{each} ({said})")
    return out
