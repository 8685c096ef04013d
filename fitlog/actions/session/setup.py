"""Start a test, set its criteria, set a session's place and air."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.coherence.club.consequences import describe_consequences
from fitlog.edits.follow import follow
from fitlog.edits.named_rows import set_values
from fitlog.edits.session import find_empty_test, make_test_row, open_with_rows
from fitlog.edits.tests import append_shots, find_row, name_row, refuse_decided, refuse_reference
from fitlog.history.message import Message
from fitlog.records.errors import UsageError
from fitlog.records.models.bag import Club, choose_club, club_setup, find_clubs, known_address
from fitlog.records.models.player import Player
from fitlog.records.models.session import (
    CANDIDATE,
    CRITERION_KEYS,
    FULL,
    MEASURES,
    REFERENCE,
    Session,
    check_criterion,
    ref,
)
from fitlog.records.naming.ids import draw_unused
from fitlog.records.naming.refs import ClubRef
from fitlog.records.naming.slots import kind_of
from fitlog.records.schema.dotted_keys import flatten, nest
from fitlog.records.schema.fields import Fault
from fitlog.records.wording.plurals import format_count
from fitlog.records.wording.words import describe_setup
from fitlog.saving.desk import Desk
from fitlog.saving.save import Save, SaveResult, saving
from fitlog.views.bag.swing_weight import describe_swing_weight_change
from fitlog.views.session.today import todays_session
from fitlog.workspace.assignments import Values, resolve_values
from fitlog.workspace.layout import session_file

if TYPE_CHECKING:
    from fitlog.actions.session.import_file import FileShots
    from fitlog.workspace.documents import Document


class StartedTest(NamedTuple):
    """A test ready for shots; ``shots`` are the ids of those it started with."""

    player: str
    session: str
    test: str
    saved: SaveResult
    shots: tuple[str, ...] = ()

    @property
    def ref(self) -> str:
        """The test's address."""
        return ref(self.session, self.test)


def start_test(
    desk: Desk,
    player: str,
    slot: str,
    made_from: str = "bag",
    values: Values | None = None,
    role: str = CANDIDATE,
    session: str = "",
    criteria: Sequence[Mapping[str, Any]] | None = None,
    about: Mapping[str, Any] | None = None,
    also_reference: bool = False,
    shots: Sequence[Mapping[str, Any]] = (),
    file: "FileShots | None" = None,
    retest_of: str = "",
    own_slot: bool = False,
    other_club: bool = False,
    swing: str = "",
    step: tuple[str, Sequence[str]] | None = None,
) -> StartedTest:
    """Set up a test: the bag's club (or another test's setup), with what is changed.

    It goes into the session named, else today's, else a new one (``about``: place, air, notes, columns). The criteria
    are the player's for this slot, unless others are given, and stand in the file before the first shot.
    With ``also_reference`` the bag's club is set up as reference too, where the session has none for the slot.
    ``swing`` is the player's own name of a partial swing; empty is a full one.
    ``step`` names a search for the change to blame, and the changes that this setup takes back.
    An open test of the very same setup that has no shot yet is taken instead of a second one beside it.
    ``shots`` that are at hand already, and those ``file`` of a file, come in with it: one action, one commit;
    ``other_club`` says yes to shots that the file calls another club.
    Raises UsageError for a slot, club or test that is not there.
    """
    player = desk.workspace.pick_player(player)
    wanted = known_address(desk.workspace.bag(player), slot, own_slot)
    slot = ClubRef.parse(wanted).slot
    if file and not other_club:
        from fitlog.actions.session.import_file import refuse_other_club

        refuse_other_club(file.group, slot, file.file.name)
    swing = resolve_swing(desk.workspace.player(player), swing)
    with saving(desk) as save:
        setup, club = _base(desk, player, wanted, made_from)
        name = desk.workspace.pick_session(player, session) if session else todays_session(desk, player)
        current = desk.workspace.session(player, name) if name else None
        rows = []
        if also_reference and role == CANDIDATE and not (current and _has_reference(current, slot, swing)):
            rows += _reference_rows(desk, player, wanted)
        setup = _change_setup(desk, save, slot, setup, values or {})
        row = make_test_row(slot, role, made_from, setup, club, _criteria(desk, player, slot, club, criteria))
        if step:
            row |= {"search": step[0], "reverted": list(step[1]), "setup": row.pop("setup")}
        if role == CANDIDATE and not shots and file is None and not swing:
            _predict(desk, save, player, row, name)
        if retest_of:
            row["retest_of"] = retest_of
        rows = [_with_swing(each, swing) for each in (*rows, row)]
        empty = find_empty_test(current, rows[-1]) if current else None
        if empty is not None:
            rows.pop()
            save.notes.append("a test of this setup is there without a shot; it takes the shots")
        _draw_ids(desk, rows, current)
        test = empty.id if empty is not None else str(rows[-1]["id"])
        name, edited = open_with_rows(desk, save, player, name, rows, about or {})
        ids, hit = _with_shots(desk, save, edited, player, test, shots, file)
        save.put_document(edited)
        subject = _subject(slot, role, swing, hit, setup)
        message = Message(subject, "test", players=[player], slots=[slot], evidence=[ref(name, test)])
        return StartedTest(player, name, test, save.commit(message), tuple(ids))


def _subject(slot: str, role: str, swing: str, hit: Sequence[str], setup: Mapping[str, Any]) -> str:
    """What the history says of a new test: ``3w candidate: Alder 16, …``."""
    test = ", ".join([f"{slot} {role}", *([f"{swing} swing"] if swing else []), *hit])
    return f"{test}: {describe_setup(setup)}"


def _change_setup(desk: Desk, save: Save, slot: str, setup: Mapping[str, Any], values: Values) -> dict[str, Any]:
    """The setup with values changed and what follows; the save's notes say what."""
    now = dict(flatten(setup))
    found = follow(desk, now, resolve_values(values, now))
    save.notes += describe_consequences(found)
    save.notes += describe_swing_weight_change(desk, slot, now, {**now, **found.values})
    return _apply_values(setup, found.values)


def _reference_rows(desk: Desk, player: str, address: str) -> list[dict[str, Any]]:
    """A reference test of the bag's club as it stands; none without such a club."""
    clubs = find_clubs(desk.workspace.bag(player), address)[:1]
    return [make_test_row(club.slot, REFERENCE, "bag", club_setup(club), club, ()) for club in clubs]


def _draw_ids(desk: Desk, rows: Sequence[dict[str, Any]], session: Session | None) -> None:
    """Give each new test an id that no other of the session has."""
    taken = [test.id for test in session.test] if session else []
    for row in rows:
        row["id"] = draw_unused(desk.draw, 3, taken)
        taken.append(row["id"])


def role_for(made_from: str, values: Values) -> str:
    """The role of a test where none is given.

    The bag's club without a change is a reference.

    >>> role_for("bag", {}), role_for("bag", {"lie_deg": 58}), role_for("2026-04-18-q7k#b4t", {})
    ('reference', 'candidate', 'candidate')
    """
    return REFERENCE if made_from == "bag" and not values else CANDIDATE


def retest(desk: Desk, player: str, where: str) -> StartedTest:
    """Start a new test of the same setup, linked to the first, with its criteria.

    The reference is set up too.

    Raises UsageError for a test that is not there, Refusal for a reference.
    """
    player = desk.workspace.pick_player(player)
    session, _, test = desk.workspace.pick_test(player, where)
    refuse_reference(test, where, "add shots to it, or start a new reference test")
    first = ref(session, test.id)
    wanted = test.address
    keys = CRITERION_KEYS
    criteria = [{k: v for k, v in each._asdict().items() if k in keys and v is not None} for each in test.criteria]
    return start_test(
        desk, player, wanted, first, criteria=criteria, also_reference=True, retest_of=first, own_slot=True,
        swing=test.swing or "",
    )  # fmt: skip


def _has_reference(session: Session, slot: str, swing: str) -> bool:
    alike = (test for test in session.tests_of(slot) if test.swing_name == (swing or FULL))
    return any(test.role == REFERENCE for test in alike)


def resolve_swing(player: Player, swing: str) -> str:
    """The name of a partial swing as the player writes it; empty for a full one.

    Raises UsageError for a name that is not among the player's own, where the player has any.
    """
    swing = swing.strip()
    if swing.casefold() in ("", FULL):
        return ""
    found = next((each for each in player.swings if each.casefold() == swing.casefold()), None)
    if found is None and player.swings:
        raise UsageError(
            f"'{swing}' is not a swing of {player.name}",
            do=f"use one of {', '.join(player.swings)}, or add it with: fitlog swings",
        )
    return found or swing


def _with_swing(row: dict[str, Any], swing: str) -> dict[str, Any]:
    """The row of a test with its swing before what it must show."""
    if not swing:
        return row
    later = ("criteria", "setup", "retest_of")
    first = {key: value for key, value in row.items() if key not in later}
    return {**first, "swing": swing, **{key: row[key] for key in later if key in row}}


def _base(desk: Desk, player: str, address: str, made_from: str) -> tuple[dict[str, Any], Club | None]:
    """The setup to start from and the bag's club that it competes with."""
    slot = ClubRef.parse(address).slot
    bag = desk.workspace.bag(player)
    club = choose_club(bag, address, player) if find_clubs(bag, address) else None
    if made_from == "blank":
        return {}, club
    if made_from == "bag":
        if club is None:
            choose_club(bag, address, player)
        return (club_setup(club) if club else {}), club
    _, _, test = desk.workspace.pick_test(player, made_from)
    kind = club.of_kind if club else kind_of(slot)
    if test.of_kind != kind:
        raise UsageError(
            f"the test {made_from} is of a {test.of_kind} and {slot} holds a {kind}",
            do=f"name a test of a {kind}, or the slot that the test belongs to",
        )
    return dict(test.raw.get("setup", {})), club


def _apply_values(setup: Mapping[str, Any], values: Values) -> dict[str, Any]:
    pairs = {**dict(flatten(setup)), **values}
    return nest({key: value for key, value in pairs.items() if value is not None})


def _predict(desk: Desk, save: Save, player: str, row: dict[str, Any], session: str) -> None:
    """Write down what the candidate should do before it is hit.

    The setup stays last in the row.
    """
    from fitlog.views.prediction.plan import Candidate, plan_prediction

    kind = row.get("kind") or kind_of(row["slot"])
    planned = plan_prediction(desk, Candidate(player, row["slot"], kind, row.get("club", ""), row["setup"]), session)
    if planned.table:
        setup = row.pop("setup")
        row |= {"predicted": planned.table, "setup": setup}
    elif planned.why_not:
        save.notes.append(planned.why_not)


def _criteria(
    desk: Desk, player: str, slot: str, club: Club | None, rows: Sequence[Mapping[str, Any]] | None
) -> list[dict[str, Any]]:
    if rows is None:
        kind = club.of_kind if club else kind_of(slot)
        mine = desk.workspace.player(player).criteria_for(slot, kind)
        keys = CRITERION_KEYS
        return [{k: v for k, v in each._asdict().items() if k in keys and v is not None} for each in mine]
    faults: list[Fault] = []
    for each in rows:
        check_criterion(each, ("criteria",), faults)
        if each.get("metric") not in MEASURES:
            raise UsageError(
                f"'{each.get('metric')}' is not a measured quantity", do="use one of " + ", ".join(MEASURES)
            )
    if faults:
        raise UsageError(faults[0].what, do=faults[0].do)
    return [dict(each) for each in rows]


def _with_shots(
    desk: Desk,
    save: Save,
    document: "Document",
    player: str,
    test: str,
    shots: Sequence[Mapping[str, Any]],
    file: "FileShots | None",
) -> tuple[list[str], list[str]]:
    """Put shots into a test of the file.

    Returns the ids of those typed, and what came in in words.
    """
    place = find_row(document, test)[1]
    ids = append_shots(desk, document, place, shots, desk.now().time())
    hit = [f"{format_count(len(ids), 'shot')}"] if ids else []
    if file:
        from fitlog.actions.session.import_file import put_file

        put_file(desk, save, document, player, place, file)
        hit.append(file.description)
    return ids, hit


def set_criteria(
    desk: Desk, player: str, where: str, criteria: Sequence[Mapping[str, Any]], reason: str
) -> SaveResult:
    """Change what a test must show.

    Once shots were hit, the change stays visible in the history.
    """
    from fitlog.history.message import require_reason

    player = desk.workspace.pick_player(player)
    session, _, test = desk.workspace.pick_test(player, where)
    reason = require_reason(reason) if test.shots else reason
    chosen = _criteria(desk, player, test.slot, None, criteria)
    with saving(desk, settle_shots=True) as save:
        edited = save.open(session_file(player, session))
        row, place = find_row(edited, test.id)
        refuse_decided(row, where)
        edited.set(("test", place, "criteria"), chosen)
        save.put_document(edited)
        after = f", after {format_count(len(test.shots), 'shot')}" if test.shots else ""
        subject = f"{name_row(row, edited.table['test'])}: criteria changed{after}"
        return save.commit(Message(subject, "criteria", reason, [player], [test.slot], [ref(session, test.id)]))


def set_session(desk: Desk, player: str, session: str, values: Values) -> SaveResult:
    """Place, air, notes or columns of a session."""
    with saving(desk, settle_shots=True) as save:
        edited = save.open(session_file(player, session))
        set_values(edited, resolve_values(values, dict(flatten(edited.table))))
        save.put_document(edited)
        from fitlog.history.differences import summary

        subject = summary(save.differences()) or "session: no change"
        return save.commit(Message(subject, "session", players=[player]))
