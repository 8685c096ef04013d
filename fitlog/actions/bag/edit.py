"""Change a club, a make-up or the ball of a bag, with the reason."""

from collections.abc import Iterable, Sequence

from fitlog.edits.bag import read_document, set_club
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.bag import choose_club, find_clubs, known_address
from fitlog.records.naming.refs import ClubRef
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.schema.spec_columns import READINGS
from fitlog.saving.desk import Desk
from fitlog.saving.save import Save, SaveResult, saving
from fitlog.views.bag.swing_weight import describe_swing_weight_change
from fitlog.workspace.assignments import Values, resolve_values
from fitlog.workspace.layout import bag_file


def needs_reason(desk: Desk, keys: Iterable[str]) -> bool:
    """Whether a change of these keys needs a reason.

    A workspace may ask for none where all are measured.
    """
    measured = all(key.startswith(READINGS) for key in keys)
    return not (measured and desk.workspace.settings_at_hand().measured_without_reason)


def _reason_for(desk: Desk, keys: Iterable[str], reason: str) -> str:
    from fitlog.history.message import require_reason

    return require_reason(reason) if reason.strip() or needs_reason(desk, keys) else ""


def bag_set(
    desk: Desk,
    player: str,
    address: str,
    values: Values,
    reason: str,
    as_second: bool = False,
    action: str = "bag-set",
    own_slot: bool = False,
) -> SaveResult:
    """Change values of one club, or put a new club into its slot.

    A slot that has a club already takes another with ``as_second``.

    The slot is understood as people write it; ``own_slot`` says yes to one of the player's own making.

    A changed setup is on trial again and dates from today, unless the values say otherwise.
    Raises UsageError without a reason, Refusal for a value that does not fit.
    """
    reason = _reason_for(desk, values, reason)
    player = desk.workspace.pick_player(player)
    if not values:
        raise UsageError("no value was given", do="give at least one, such as --set shaft.tip_trim_in=1.25")
    with saving(desk) as save:
        document = save.open(bag_file(player))
        address = known_address(read_document(document), address, own_slot)
        slot = ClubRef.parse(address).slot
        record = read_document(document)
        found = () if as_second else find_clubs(record, address)
        before = dict(flatten(found[0].raw)) if found else {}
        save.notes += set_club(desk, document, player, address, values, as_second)
        if found:
            after = dict(flatten(document.table["club"][record.club.index(found[0])]))
            save.notes += describe_swing_weight_change(desk, slot, before, after)
        save.put_document(document)
        return _commit(save, slot, reason, player, action)


def _commit(save: Save, slot: str, reason: str, player: str, action: str, evidence: Sequence[str] = ()) -> SaveResult:
    from fitlog.history.differences import summary
    from fitlog.history.message import Message

    differences = save.differences()
    subject = summary(differences) or f"{slot}: no change"
    return save.commit(Message(subject, action, reason, [player], [slot] if slot else [], evidence))


def set_specs(desk: Desk, player: str, rows: Sequence[tuple[str, Values]], reason: str) -> SaveResult:
    """Set values of several clubs in one commit.

    A slot that the bag lacks becomes a new club.

    rows: a club's address or slot, and its values by dotted key.
    Raises UsageError without a reason, Refusal for a value that does not fit; nothing is written then.
    """
    reason = _reason_for(desk, [key for _, values in rows for key in values or [""]], reason)
    player = desk.workspace.pick_player(player)
    with saving(desk) as save:
        document = save.open(bag_file(player))
        for wanted, values in rows:
            if values:
                notes = set_club(desk, document, player, wanted, values)
                save.notes += [f"{wanted}: {each}" for each in notes]
        save.put_document(document)
        return _commit(save, "", reason, player, "specs")


def take_out(desk: Desk, player: str, address: str, reason: str) -> SaveResult:
    """Take a club out of the bag file; the history keeps it.

    Raises UsageError without a reason, Refusal where a make-up still counts on the club.
    """
    from fitlog.history.message import require_reason

    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    with saving(desk) as save:
        document = save.open(bag_file(player))
        record = read_document(document)
        club = choose_club(record, address, player)
        alone = len(find_clubs(record, club.slot)) == 1
        for makeup in record.makeup:
            if club.address in makeup.clubs or (alone and club.slot in makeup.clubs):
                raise Refusal(
                    f"{club.address} is in the make-up {makeup.name}",
                    do=f"choose its clubs again first, or drop it: fitlog makeup {player} '{makeup.name}' …",
                )
        document.drop("club", record.club.index(club))
        save.put_document(document)
        return _commit(save, club.slot, reason, player, "take-out")


def set_carried(desk: Desk, player: str, address: str, carried: bool, reason: str) -> SaveResult:
    """Put a club into the bag to carry, or leave it at hand."""
    return bag_set(desk, player, address, {"carried": carried}, reason, action="carry" if carried else "leave")


def set_makeup(
    desk: Desk, player: str, name: str, clubs: Sequence[str], reason: str, venue: str | None = None
) -> SaveResult:
    """A named choice of clubs; an empty choice takes the make-up away.

    ``venue`` is the id of the venue that it is for; empty takes it away, None leaves it as it is.
    Raises UsageError for a club that the bag does not have and for a venue that is not there.
    """
    from fitlog.history.message import require_reason

    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    if not name.strip():
        raise UsageError("a make-up needs a name", do="name it for its course or purpose")
    venue = desk.workspace.pick_venue(venue) if venue else venue
    with saving(desk) as save:
        document = save.open(bag_file(player))
        record = read_document(document)
        for wanted in clubs:
            choose_club(record, wanted, player)
        number = next((place for place, each in enumerate(record.makeup) if each.name == name), None)
        if not clubs:
            if number is None:
                raise UsageError(f"there is no make-up '{name}'", do="see them with: fitlog bag " + player)
            document.drop("makeup", number)
        elif number is None:
            document.add("makeup", {"name": name, "clubs": list(clubs), **({"venue": venue} if venue else {})})
        else:
            document.set(("makeup", number, "clubs"), list(clubs))
            if venue:
                document.set(("makeup", number, "venue"), venue)
            elif venue is not None:
                document.unset(("makeup", number, "venue"))
        save.put_document(document)
        return _commit(save, "", reason, player, "make-up")


def set_ball(desk: Desk, player: str, values: Values, reason: str) -> SaveResult:
    """The ball played; the evidence of every club rests on the ball it was hit with."""
    from fitlog.history.message import require_reason

    reason = require_reason(reason)
    player = desk.workspace.pick_player(player)
    with saving(desk) as save:
        document = save.open(bag_file(player))
        values = resolve_values(values, dict(flatten(document.table.get("ball", {}))))
        document.become(("ball",), {key: value for key, value in values.items() if value is not None})
        if "tuned" in document.table:  # it was of the ball before
            document.unset(("tuned",))
        save.put_document(document)
        return _commit(save, "", reason, player, "ball")
