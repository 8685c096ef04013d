"""Going back: mark proven, restore a club or the bag, undo the last action, close a season."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.actions.desk import Desk
from fitlog.actions.saving import Done, last_text, saving, settle_shots
from fitlog.history import goback
from fitlog.history.goback import LAST_PROVEN, Target, clubs_of, slots_of
from fitlog.history.meaning import Difference, bag_differences, file_differences, summary
from fitlog.history.message import Entry, Message, checked_reason
from fitlog.records.bag import PROVEN, read_bag
from fitlog.records.errors import Refusal, UsageError
from fitlog.workspace.layout import bag_file, kind_of_file
from fitlog.workspace.read import load

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document


def mark_proven(desk: Desk, player: str, slots: Sequence[str], reason: str) -> Done:
    """Mark clubs as proven, a setup to go back to; without slots, every carried club.

    Raises Refusal without a reason, UsageError for a club that is not there.
    """
    reason = checked_reason(reason)
    player = desk.workspace.pick_player(player)
    with saving(desk) as save:
        edited = save.open(bag_file(player))
        record = read_bag(edited.snapshot(), [])
        clubs = [club for each in slots for club in _must_find(record, each, player)] or list(record.carried)
        for club in clubs:
            edited.set(("club", record.club.index(club), "standing"), PROVEN)
        save.put_document(edited)
        names = list(dict.fromkeys(club.slot for club in clubs))
        said = f"Proven: {', '.join(names)}" if slots else "Proven: the whole bag"
        return save.commit(Message(said, "proven", reason, [player], names))


def _must_find(record: Any, wanted: str, player: str) -> list[Any]:
    from fitlog.records.bag import one_club

    return [one_club(record, wanted, player)]


class Plan(NamedTuple):
    """What going back would do, before it is done: the words, where to, and what cannot be gone back to."""

    player: str
    said: str
    differences: tuple[Difference, ...]
    notes: tuple[str, ...]
    text: str


def plan_restore(desk: Desk, player: str, slots: Sequence[str], to: str) -> Plan:
    """What restoring these slots (or the whole bag) to a revision, a date, a season or ``last-proven`` would change.

    Raises UsageError for a place in history that is not there, Refusal where nothing was ever proven.
    """
    player = desk.workspace.pick_player(player)
    name = bag_file(player)
    loaded = load(desk.root, name)
    from fitlog.workspace.documents import Document

    edited = Document(name, loaded.text if loaded else last_text(desk, name).decode("utf-8-sig"))
    said, notes = _restore(desk, edited, player, slots, to)
    now = loaded.table if loaded else {}
    return Plan(player, said, tuple(bag_differences(now, edited.table)), tuple(notes), edited.text())


def restore(desk: Desk, player: str, slots: Sequence[str], to: str, reason: str) -> Done:
    """Put slots, or the whole bag, back to how they were: a new commit that says where it went back to.

    Later changes to other slots and comments by hand stay.
    Raises Refusal without a reason, UsageError for a place in history that is not there.
    """
    reason = checked_reason(reason)
    settle_shots(desk)
    player = desk.workspace.pick_player(player)
    with saving(desk) as save:
        edited = save.reopen(bag_file(player))
        said, notes = _restore(desk, edited, player, slots, to)
        save.put_document(edited)
        save.notes += notes
        names = [each.partition("#")[0] for each in slots]
        what = ", ".join(names) if names else "the bag"
        differences = summary(save.differences())
        subject = f"Back to {said}: {what}" + (f" ({differences})" if differences else "")
        return save.commit(Message(subject, "restore", reason, [player], names))


def _restore(desk: Desk, edited: "Document", player: str, slots: Sequence[str], to: str) -> tuple[str, list[str]]:
    """Edit the bag so that the slots are as they were then; how to say where to, and what could not be done."""
    name = edited.name
    wanted = [each.partition("#")[0] for each in slots]
    if to == LAST_PROVEN:
        asked = wanted or slots_of(edited.table)
        targets = goback.last_proven(desk.history, name, edited.table, asked)
        missing = [slot for slot in asked if slot not in {target.slot for target in targets}]
        if not targets:
            raise Refusal(
                f"{', '.join(asked) or 'this bag'} was never marked proven",
                do=f"mark a setup with: fitlog proven {player} --reason TEXT, or go back to a date",
            )
        notes = [f"{slot} was never marked proven and stays as it is" for slot in missing]
        said = "the last proven setup"
    else:
        commit, said = goback.find_revision(desk.history, [name], to)
        then = desk.history.table_at(commit, name, sure=True)
        if not then:
            raise UsageError(f"there was no bag yet at {said}", do="give a later date; see: fitlog history")
        notes = []
        targets = [
            Target(slot, clubs_of(then, slot), commit)
            for slot in wanted or dict.fromkeys([*slots_of(then), *slots_of(edited.table)])
        ]
        for target in targets:
            if wanted and not target.clubs and not clubs_of(edited.table, target.slot):
                raise UsageError(f"{player} has no '{target.slot}', then or now", do="see: fitlog bag " + player)
        if not wanted:
            _restore_rest(edited, then)
    for target in targets:
        _restore_slot(edited, target)
    return said, notes


def _restore_rest(edited: "Document", then: Mapping[str, Any]) -> None:
    """Ball and make-ups go back with the whole bag; the season is the calendar's and stays."""
    edited.become(("ball",), then.get("ball", {}))
    while edited.table.get("makeup"):
        edited.drop("makeup", 0)
    for makeup in then.get("makeup", []):
        edited.add("makeup", makeup)


def _restore_slot(edited: "Document", target: Target) -> None:
    """Make the slot's clubs what they were, club by club, with as few edits as can be."""

    def rows() -> list[tuple[int, Mapping[str, Any]]]:
        return [(n, row) for n, row in enumerate(edited.table.get("club", [])) if row.get("slot") == target.slot]

    left = list(target.clubs)
    twins: dict[int, Mapping[str, Any]] = {}
    for number, row in rows():
        twin = next((club for club in left if club.get("id") == row.get("id")), None)
        if twin is not None:
            left.remove(twin)
            twins[number] = twin
    if not twins and len(left) == 1 and rows():  # a club that shares its slot now and was alone, or the other way
        twins[rows()[0][0]] = left.pop()
    for number, _ in reversed(rows()):
        if number in twins:
            edited.become(("club", number), twins[number])
        else:
            edited.drop("club", number)
    for club in left:
        edited.add("club", club)


class Undo(NamedTuple):
    """The action that undo would take back, and what that changes."""

    entry: Entry
    differences: tuple[Difference, ...]


def plan_undo(desk: Desk, player: str = "") -> Undo:
    """What undo would take back; with a player, of what was done for that player.

    Raises Refusal where there is nothing to undo.
    """
    settle_shots(desk)
    entry = goback.undoable(desk.history, player and desk.workspace.pick_player(player))
    out: list[Difference] = []
    for name, _ in desk.history.files_of(entry.commit):
        kind, _names = kind_of_file(name)
        if kind:
            tables = (
                desk.history.table_at(revision, name, sure=True) for revision in (entry.commit, entry.commit + "^")
            )
            out += file_differences(kind, *tables)
    return Undo(entry, tuple(out))


def undo(desk: Desk, player: str = "", planned: str = "") -> Done:
    """Take back the last action that was not undone yet, as a new commit; later edits by hand stay.

    With a player, the last of what was done for that player. ``planned`` is the commit that a person was shown.
    Raises Refusal where there is nothing to undo, where a later edit by hand touches the same value, or where
    something else was done since the plan was shown.
    """
    settle_shots(desk)
    player = player and desk.workspace.pick_player(player)
    with saving(desk) as save:
        entry = goback.undoable(desk.history, player)
        if planned and entry.commit != planned:
            raise Refusal(f"something was done since: {entry.subject}", do="look again at what undo would take back")
        removed = []
        files = desk.history.files_of(entry.commit)
        for name, how in files:
            before = None if how == "A" else desk.history.bytes_at(entry.commit + "^", name)
            after = desk.history.bytes_at(entry.commit, name)
            now = save.settle(name)
            if now == before:
                continue
            if before is None and now == after:
                removed.append(name)
            else:
                merged = before if now == after else _merged(desk, name, now, after, before)
                save.put_bytes(name, merged or b"")
        message = Message(
            f"Undo: {entry.subject}", "undo", players=entry.players, slots=entry.slots, undoes=entry.commit
        )
        done = save.commit(message, removed)
        if done.commit:
            return done
        # somebody put it back by hand already: say so in the history, or undo would stop here for ever
        when = desk.now() if desk.stamp else None
        commit = desk.history.commit([name for name, _ in files], message, when)
        return done._replace(commit=commit, subject=message.text().partition("\n")[0])


def _merged(desk: Desk, name: str, now: bytes | None, after: bytes | None, before: bytes | None) -> bytes:
    """Today's file without what the action did, where a later edit by hand changed other values of it."""
    from fitlog.actions.merging import merge_file

    merged = merge_file(desk.history.git, name, after, now, before)
    if merged.conflicts or merged.data is None:
        raise Refusal(
            "a later edit by hand touches the same value, so undo would guess",
            where=name,
            do="put the value back by hand, or use fitlog restore",
        )
    return merged.data


# seasons


class SeasonEnd(NamedTuple):
    """A closed season: its name, the commit that closed it, and the day."""

    name: str
    entry: Entry | None
    current: bool


def seasons(desk: Desk, player: str) -> list[SeasonEnd]:
    """The player's closed seasons, oldest first, then the current one."""
    player = desk.workspace.pick_player(player)
    ends = goback.season_ends(desk.history, [bag_file(player)])
    closed = [SeasonEnd(entry.season, entry, False) for entry in reversed(ends)]
    now = desk.workspace.bag(player).season
    return [*closed, SeasonEnd(now or "no name yet", None, True)]


def close_season(desk: Desk, player: str, name: str, following: str = "") -> Done:
    """Close a season under its name and begin the next one.

    The bag at this moment is what the season's name means in ``diff`` and ``restore``.
    Raises Refusal where a season of that name is closed already.
    """
    player = desk.workspace.pick_player(player)
    if not name.strip():
        raise UsageError("a season needs a name", do="name the season that ends, such as 2026")
    if any(each.name == name and not each.current for each in seasons(desk, player)):
        raise Refusal(f"season {name} is closed already", do="see: fitlog season " + player + " list")
    following = following or next_season(name)
    if following == name:
        raise UsageError("the next season needs another name", do="give one with --next")
    with saving(desk) as save:
        edited = save.open(bag_file(player))
        edited.set(("season",), following)
        save.put_document(edited)
        said = f"Season {name} closed; season {following} begins"
        return save.commit(Message(said, "season-close", players=[player], season=name))


def next_season(name: str) -> str:
    """The season after: a last number goes up by one.

    >>> next_season("2026"), next_season("winter 25"), next_season("trial")
    ('2027', 'winter 26', 'after trial')
    """
    import re

    found = re.search(r"(\d+)$", name)
    return name[: found.start()] + str(int(found[1]) + 1).zfill(len(found[1])) if found else f"after {name}"
