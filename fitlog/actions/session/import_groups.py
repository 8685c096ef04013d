"""Log the shots of several clubs at once, typed or from one file: one commit."""

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.actions.session.import_file import map_id, put_map, source_row
from fitlog.edits.session import make_test_row, open_with_rows
from fitlog.edits.tests import append_file, append_shots, find_row, refuse_decided
from fitlog.history.message import Message
from fitlog.records.entry.shot_line import check_shot
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.bag import Bag, Club, choose_club, club_setup
from fitlog.records.models.session import REFERENCE, ref
from fitlog.records.naming.ids import draw_unused
from fitlog.records.naming.refs import ClubRef
from fitlog.records.wording.plurals import format_count
from fitlog.saving.desk import Desk
from fitlog.saving.save import Save, SaveResult, saving
from fitlog.views.session.groups import FilePlan, GroupPlan, is_reference_of
from fitlog.views.session.today import todays_session
from fitlog.workspace.layout import bag_file, session_file, source_file

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document


class Lot(NamedTuple):
    """The shots of one club.

    They go to ``test`` (SESSION#TEST), else to a reference test of the bag's ``club``.
    """

    club: str
    shots: Sequence[Mapping[str, Any]]
    test: str = ""
    group: str = ""


class LogResult(NamedTuple):
    """What came in: the tests by club, and how many shots."""

    saved: SaveResult
    session: str
    tests: tuple[tuple[str, str], ...]
    shots: int


def import_groups(
    desk: Desk, plan: FilePlan, choices: Sequence[GroupPlan], session: str = "", rests: bool = False
) -> LogResult:
    """Import the chosen groups of a file, for any number of clubs, in one commit.

    The file and a new map are part of it.

    choices: the plan's groups as a person confirmed them. ``rests``: the clubs then rest on these tests.
    Raises Refusal where no group is ready, or a club or test cannot take shots; nothing is written then.
    """
    ready = [each for each in choices if each.ready]
    if not ready:
        why = "; ".join(f"{each.group or 'the file'}: {each.where}" for each in choices)
        raise Refusal(f"no group can be imported: {why}", where=plan.file.path, do="say which club: GROUP=CLUB")
    intake = plan.file.preview.intake
    groups = intake.groups if intake else {}
    lots = [Lot(each.club, groups[each.group], each.test, each.group) for each in ready]
    return log_lots(desk, plan.player, lots, session or plan.session, rests, plan)


def log_lots(
    desk: Desk, player: str, lots: Sequence[Lot], session: str = "", rests: bool = False, plan: FilePlan | None = None
) -> LogResult:
    """Log the shots of several clubs in one commit.

    A club whose test is not named is hit as it stands in the bag.

    ``plan`` is the file that they come from; ``rests`` puts the tests into the clubs' evidence.
    Raises Refusal for a value that does not fit or a test that was decided, UsageError for a club that is not there.
    """
    player = desk.workspace.pick_player(player)
    for lot in lots:
        for shot in lot.shots:
            check_shot(shot)
    with saving(desk, settle_shots=True) as save:
        importing = _ImportRun(desk, save, player, session or todays_session(desk, player))
        tests = tuple(importing.put(lot, plan) for lot in lots)
        importing.finish()
        if plan:
            importing.keep(plan)
        if rests:
            rest_on(save, player, tests)
        count = sum(len(lot.shots) for lot in lots)
        slots = list(dict.fromkeys(ClubRef.parse(club).slot for club, _ in tests))
        origin = f" from {plan.file.name}" if plan else ""
        subject = f"{format_count(count, 'shot')}{origin}: {', '.join(slots)}"
        message = Message(subject, "import" if plan else "shots", "", [player], slots, [each for _, each in tests])
        done = save.commit(message)
    return LogResult(done, importing.session, tests, count)


class _ImportRun:
    """The session files that one import changes."""

    def __init__(self, desk: Desk, save: Save, player: str, session: str) -> None:
        self.desk, self.save, self.player, self.session = desk, save, player, session
        self.bag: Bag = desk.workspace.bag(player)
        self.files: dict[str, Document] = {}

    def put(self, lot: Lot, plan: FilePlan | None) -> tuple[str, str]:
        """Put a lot's shots into its test; returns the club's address and the test's."""
        name, edited, place = self._find_test(lot.test) if lot.test else self._reference(lot)
        row = edited.table["test"][place]
        refuse_decided(row, edited.name)
        if plan:
            source = source_row(plan.file.source_name, plan.file.name, map_id(self.desk, plan.file), lot.group)
            append_file(self.desk, edited, place, lot.shots, source)
        else:
            append_shots(self.desk, edited, place, lot.shots, self.desk.now().time())
        club = str(ClubRef(str(row["slot"]), str(row.get("club") or "")))
        return club, ref(name, str(row["id"]))

    def _find_test(self, test: str) -> "tuple[str, Document, int]":
        name, _, found = self.desk.workspace.pick_test(self.player, test)
        edited = self._open(name)
        return name, edited, find_row(edited, found.id)[1]

    def _open(self, name: str) -> "Document":
        if name not in self.files:
            self.files[name] = self.save.open(session_file(self.player, name))
        return self.files[name]

    def _reference(self, lot: Lot) -> "tuple[str, Document, int]":
        """An open reference test of the bag's club, else a new one.

        Where there is no session, one is made.
        """
        club = choose_club(self.bag, lot.club, self.player)
        if self.session and (place := self._find_reference(club)) is not None:
            return self.session, self._open(self.session), place
        row = make_test_row(club.slot, REFERENCE, "bag", club_setup(club), club, ())
        if self.session:
            edited = self._open(self.session)
            row["id"] = draw_unused(self.desk.draw, 3, [str(each.get("id")) for each in edited.table.get("test", [])])
            edited.add("test", row)
        else:
            row["id"] = draw_unused(self.desk.draw, 3, [])
            self.session, edited = open_with_rows(self.desk, self.save, self.player, "", [row], {})
            self.files[self.session] = edited
        return self.session, edited, len(edited.table["test"]) - 1

    def _find_reference(self, club: Club) -> int | None:
        record = self.desk.workspace.session(self.player, self.session) if self._is_saved() else None
        tests = [test for test in record.test if is_reference_of(test, club)] if record else []
        return find_row(self._open(self.session), tests[-1].id)[1] if tests else None

    def _is_saved(self) -> bool:
        return self.session in self.desk.workspace.sessions(self.player)

    def finish(self) -> None:
        """Have the save write every session that changed."""
        for edited in self.files.values():
            self.save.put_document(edited)

    def keep(self, plan: FilePlan) -> None:
        """Keep the file as it came, and its map where that is new or was changed."""
        put_map(self.save, plan.file)
        self.save.put_bytes(source_file(self.player, plan.file.source_name), plan.file.data)


def rest_on(save: Save, player: str, tests: Sequence[tuple[str, str]]) -> None:
    """Have each club rest on the test that was hit with it."""
    document = save.open(bag_file(player))
    for number, address in _rows_of(document, player, [club for club, _ in tests]):
        new = [test for club, test in tests if club == address]
        held = [str(each) for each in document.table["club"][number].get("evidence", [])]
        if missing := [each for each in new if each not in held]:
            document.set(("club", number, "evidence"), [*held, *missing])
    save.put_document(document)


def _rows_of(document: "Document", player: str, clubs: Sequence[str]) -> Iterator[tuple[int, str]]:
    from fitlog.edits.bag import read_document

    record = read_document(document)
    for address in clubs:
        yield record.club.index(choose_club(record, address, player)), address


def choose_groups(
    plan: FilePlan, choices: Mapping[str, str], without: Sequence[str] = (), bag: Bag | None = None
) -> tuple[GroupPlan, ...]:
    """The plan's groups with a person's choices: group → bag's club or SESSION#TEST.

    Raises UsageError for a group that the file does not have.
    """
    names = [each.group for each in plan.groups]
    for name in (*choices, *without):
        if name not in names:
            raise UsageError(f"the file has no group '{name}'", do="it has " + ", ".join(names))
    out = []
    for each in plan.groups:
        if each.group in without:
            continue
        wanted = choices.get(each.group)
        out.append(each if wanted is None else _assign_club(each, wanted, bag, plan.player))
    return tuple(out)


def _assign_club(each: GroupPlan, name: str, bag: Bag | None, player: str) -> GroupPlan:
    import re

    if re.match(r"\d{4}-|last\b", name) and "#" in name:
        return each._replace(club=name, test=name, why="")
    club = choose_club(bag or Bag(), name, player)
    return each._replace(club=club.address, test="", why="a reference test")
