"""Resolve a conflict: take one of its two values."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from fitlog.history.merging.merge import SETUP
from fitlog.history.message import Message, require_reason
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.bag import TRIAL
from fitlog.records.naming.ids import pick
from fitlog.records.naming.refs import ClubRef
from fitlog.records.schema.rows import address, identity
from fitlog.saving.conflicts import OTHER, STANDS, Choice, Where, choices, setup_in
from fitlog.saving.desk import Desk, refuse_past
from fitlog.saving.save import Save, SaveResult, saving, settle_shots
from fitlog.workspace.layout import choice_file

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document

_SIDES = {STANDS: STANDS, OTHER: OTHER, "ours": STANDS, "theirs": OTHER}


def choose(desk: Desk, choice: str, side: str, reason: str) -> SaveResult:
    """Settle a choice: leave the file as it is, or take the other value.

    ``stands`` (or ``ours``) leaves it, ``other`` (or ``theirs``) changes it.

    Raises UsageError for a choice that is not there, Refusal without a reason.
    """
    reason = require_reason(reason)
    if side not in _SIDES:
        raise UsageError(f"'{side}' is neither stands nor other", do="choose the value that stands, or the other")
    refuse_past(desk)
    settle_shots(desk)
    with saving(desk) as save:
        known = {each.id: each for each in choices(desk)}
        found = known[pick(choice, known, "choice")]
        name = choice_file(found.file, found.id)
        save.settle(name)
        removed = [name]
        taken = found.other if _SIDES[side] == OTHER else found.stands
        if _SIDES[side] == OTHER and not _apply(desk, save, found):
            removed.append(found.file)
        place = f"{found.place}: " if found.place else f"{found.file}: "
        message = Message(
            f"Choice: {place}{taken.text}",
            "choose",
            reason,
            [found.player] if found.player else [],
            [ClubRef.parse(found.where[1]).slot] if found.where[:1] == ("club",) else [],
        )
        return save.commit(message, removed)


def _apply(desk: Desk, save: Save, choice: Choice) -> bool:
    """Have the file say the other value; False where the whole file is to go."""
    if not choice.where and not choice.key:
        save.settle(choice.file)
        data = desk.history.bytes_at(choice.other.commit, choice.file)
        if data is None:
            return False
        save.put_bytes(choice.file, data)
        return True
    edited = save.open(choice.file)
    path = _path(edited, choice.where)
    value = choice.other.value
    if not choice.key:
        _put_row(edited, choice.where, path, value)
    elif choice.where[:1] == ("club",) and path is not None:
        _put_in_club(desk, edited, path, choice.key, value)
    elif path is None:
        raise Refusal(f"{choice.place} is not in the file any more", where=choice.file, do="choose what stands")
    elif isinstance(value, Mapping):
        edited.become((*path, *choice.key.split(".")), value)
    elif value is None:
        edited.unset((*path, *choice.key.split(".")))
    else:
        edited.set((*path, *choice.key.split(".")), value)
    save.put_document(edited)
    return True


def _path(document: "Document", where: Where) -> tuple[str | int, ...] | None:
    """Where a row stands in the document, or None where it does not."""
    path: tuple[str | int, ...] = ()
    table: Any = document.table
    for name, known_by in zip(where[::2], where[1::2], strict=True):
        rows = table.get(name, [])
        number = next((n for n, row in enumerate(rows) if identity(name, row) == known_by), None)
        if number is None:
            return None
        path, table = (*path, name, number), rows[number]
    return path


def _put_row(document: "Document", where: Where, path: tuple[str | int, ...] | None, value: Any) -> None:
    if value is None:
        if path is None:
            return
        if len(path) == 2:
            document.drop(str(path[0]), int(path[1]))
            if path[0] == "club":
                _forget_in_makeups(document)
        else:
            document.remove_item(path[:-1], int(path[-1]))
    elif path is not None and len(path) == 2:
        document.become(path, value)
    elif path is not None:
        document.set(path, value)
    elif len(where) == 2:
        document.add(where[0], value)
    else:
        inside = _path(document, where[:-2])
        if inside is None:
            raise Refusal(
                "the row around it is not in the file any more", where=document.name, do="choose what stands"
            )
        document.append((*inside, where[-2]), value)


def _forget_in_makeups(document: "Document") -> None:
    """Make-ups do not name a club that is out of the bag."""
    left = [name for row in document.table.get("club", []) for name in (address(row), row.get("slot"))]
    for number, row in enumerate(document.table.get("makeup", [])):
        names = [each for each in row.get("clubs", []) if each in left]
        if names != row.get("clubs", []):
            document.set(("makeup", number, "clubs"), names)


def _put_in_club(desk: Desk, document: "Document", path: tuple[str | int, ...], key: str, value: Any) -> None:
    if key != SETUP:
        steps = (*path, *key.split("."))
        if isinstance(value, Mapping):
            document.become(steps, value)
        elif value is None:
            document.unset(steps)
        else:
            document.set(steps, value)
        return
    row: Any = document.table[str(path[0])][path[1]]
    own = {name: each for name, each in row.items() if name not in setup_in(row)}
    document.become(path, {**own, **(value or {})})
    document.set((*path, "standing"), TRIAL)
    document.set((*path, "since"), desk.now().date())
