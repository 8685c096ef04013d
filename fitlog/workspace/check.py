"""All findings in a workspace's files at once."""

import os
from collections.abc import Callable, Collection, Iterable, Iterator
from contextlib import suppress
from typing import TYPE_CHECKING, NamedTuple

from fitlog.records.errors import BrokenFile, FitlogError, Problem
from fitlog.records.models.session import ClubTest, Session
from fitlog.records.naming.filenames import clashes, is_text, name_fault
from fitlog.records.naming.refs import TestRef
from fitlog.records.wording.plurals import format_count
from fitlog.workspace import layout
from fitlog.workspace.parse import ParsedFile, load
from fitlog.workspace.safety import pending
from fitlog.workspace.store import Workspace

if TYPE_CHECKING:
    from fitlog.records.models.part import Part


class Findings(NamedTuple):
    """What breaks a file, what is only odd, and what is remarked of a sound bag."""

    problems: tuple[Problem, ...]
    hints: tuple[Problem, ...]
    files: int
    remarks: tuple[Problem, ...] = ()

    @property
    def summary(self) -> str:
        """How many files there are, and how sound they are."""
        broken, odd = (len({each.file for each in found}) for found in (self.problems, self.hints))
        state = f"{broken} broken" if broken else f"none broken, {odd} with something odd" if odd else "all sound"
        return f"{format_count(self.files, 'file')}: {state}"


def check(
    workspace: Workspace,
    names: Iterable[str] | None = None,
    progress: Callable[[int, int], None] | None = None,
    tests_of: Callable[[Session], Collection[ClubTest]] = lambda session: session.test,
) -> Findings:
    """Read every file (or those named) and say all that is wrong with each.

    ``progress`` is told how many of how many are read; ``tests_of`` gives those tests of a session whose readings may
    be told.
    """
    problems: list[Problem] = []
    hints: list[Problem] = []
    remarks: list[Problem] = []
    wanted = list(names if names is not None else workspace.files())
    for done, name in enumerate(wanted):
        if progress:
            progress(done, len(wanted))
        try:
            loaded = load(workspace.root, name)
        except BrokenFile as broken:
            problems += broken.problems
            continue
        except FitlogError as error:
            problems.append(Problem(name, 0, "", error.what, error.do))
            continue
        if loaded is not None:
            hints += loaded.hints
            hints += _odd_readings(loaded, tests_of)
            hints += _contradictions(workspace, loaded)
            remarks += _uneven_ladder(workspace, loaded)
            problems += _wrong_hands(workspace, loaded)
        elif name.endswith(("player.toml", layout.WORKSPACE_FILE)):
            problems.append(Problem(name, 0, "", "this file is missing", "write it, or restore it from the history"))
    hints += _unknown_evidence(workspace)
    hints += _unknown_venues(workspace)
    if names is None:
        there = list(_all_names(workspace.root))
        problems += _name_problems(there)
        hints += _name_hints(there)
        problems += pending.problems(workspace.root)
    return Findings(tuple(problems), tuple(hints), len(wanted), tuple(remarks))


def _odd_readings(file: ParsedFile, tests_of: Callable[[Session], Collection[ClubTest]]) -> Iterator[Problem]:
    """Readings of a session that look implausible; they are never changed."""
    from fitlog.evidence.shots.plausible import check_shots
    from fitlog.records.schema.fields import Fault
    from fitlog.workspace.parse import problem

    if not isinstance(file.record, Session):
        return
    known_tests = tests_of(file.record)
    for number, test in enumerate(file.record.test):
        if test not in known_tests:
            continue
        shots = [{**shot._asdict(), "id": str(place)} for place, shot in enumerate(test.shots)]
        for found in check_shots(shots, head_mass_g=test.setup.head.mass_g, full_shots=test.is_full):
            place = ("test", number, "shots", *((int(found.shot), found.key) if found.shot else ()))
            yield problem(
                file.name, file.text, Fault(place, found.sentence, "correct it, or leave it as it was read")
            )


def _contradictions(workspace: Workspace, file: ParsedFile) -> Iterator[Problem]:
    """Values of a bag's clubs that contradict each other, or name missing parts."""
    from fitlog.coherence.club.complete import part_names
    from fitlog.coherence.club.contradictions import contradictions
    from fitlog.records.models.bag import Bag
    from fitlog.records.schema.fields import Fault
    from fitlog.workspace.parse import problem

    if not isinstance(file.record, Bag):
        return
    for number, club in enumerate(file.record.club):
        parts = {}
        for name in part_names(club.setup):
            shelf, _, part = name.partition("/")
            if part not in workspace.parts(shelf):
                component = shelf.removesuffix("s")
                fault = Fault(
                    ("club", number, component, "part"),
                    f"{club.slot}: there is no parts/{name}.toml",
                    "name a part that is there, or remove the key",
                )
                yield problem(file.name, file.text, fault)
                continue
            try:
                parts[name] = workspace.part(shelf, part)
            except FitlogError:  # the broken part is a problem of its own
                continue
        for each in contradictions(club, parts):
            fault = Fault(
                ("club", number, *each.key.split(".")),
                f"{club.slot}: {each.sentence}",
                "correct the one that is wrong",
            )
            yield problem(file.name, file.text, fault)


def _uneven_ladder(workspace: Workspace, file: ParsedFile) -> Iterator[Problem]:
    """Clubs of a bag whose loft or length is out of step, as its remarks say it."""
    from fitlog.coherence.club.complete import part_names
    from fitlog.coherence.review import uneven_ladder
    from fitlog.records.models.bag import Bag
    from fitlog.records.schema.fields import Fault
    from fitlog.workspace.parse import problem

    bag = file.record
    if not isinstance(bag, Bag):
        return
    try:
        player = workspace.player(layout.kind_of_file(file.name)[1][0])
    except FitlogError:  # the player's file is a problem of its own
        return
    parts: dict[str, Part] = {}
    for name in {name for club in bag.carried for name in part_names(club.setup)}:
        with suppress(FitlogError):  # a part that is missing or broken is named by itself
            parts[name] = workspace.part(*name.split("/"))
    place = {club.address: number for number, club in enumerate(bag.club)}
    for each in uneven_ladder(bag, player, parts):
        at_club = Fault(("club", place[each.slot]), str(each), "")
        yield problem(file.name, file.text, at_club)._replace(key="")


def _wrong_hands(workspace: Workspace, file: ParsedFile) -> Iterator[Problem]:
    """Heads in a bag or session that are for the other hand than the player's."""
    from fitlog.coherence.club.contradictions import wrong_hand
    from fitlog.records.models.bag import Bag
    from fitlog.records.models.session import Session
    from fitlog.records.schema.fields import Fault
    from fitlog.workspace.parse import problem

    record = file.record
    if not isinstance(record, Bag | Session):
        return
    key, setups = ("club", record.club) if isinstance(record, Bag) else ("test", record.test)
    inside = () if key == "club" else ("setup",)
    try:
        hand = workspace.player(layout.kind_of_file(file.name)[1][0]).hand
    except FitlogError:  # the player's file is a problem of its own
        return
    for number, each in enumerate(setups):
        name = f"heads/{each.setup.head.part}"
        if each.setup.head.part not in workspace.parts("heads"):
            continue
        try:
            found = wrong_hand(each.setup, {name: workspace.part("heads", each.setup.head.part)}, hand)
        except FitlogError:
            continue
        if found:
            place = (key, number, *inside, *found.key.split("."))
            do = "name the head that was used, or correct the hand in its part file"
            yield problem(file.name, file.text, Fault(place, f"{each.slot}: {found.sentence}", do))


def _unknown_evidence(workspace: Workspace) -> Iterator[Problem]:
    """Evidence in a bag that names a test nobody can find."""
    for player in workspace.players():
        sessions = set(workspace.sessions(player))
        try:
            clubs = workspace.bag(player).clubs
        except FitlogError:
            continue
        for club in clubs:
            for ref in club.evidence:
                session = TestRef.split(ref).session
                if session not in sessions:
                    what = f"{club.address} rests on {ref}, and there is no session {session}"
                    yield Problem(layout.bag_file(player), 0, "club.evidence", what, "correct the id or remove it")


def _unknown_venues(workspace: Workspace) -> Iterator[Problem]:
    """Make-ups that name a venue nobody wrote down."""
    known = workspace.venues()
    for player in workspace.players():
        try:
            makeups = workspace.bag(player).makeup
        except FitlogError:
            continue
        for each in makeups:
            if each.venue and each.venue not in known:
                what = f"the make-up {each.name} names the venue '{each.venue}', and there is none"
                do = "correct the id, or write it down with: fitlog venue add"
                yield Problem(layout.bag_file(player), 0, "makeup.venue", what, do)


def _all_names(root: str) -> Iterator[str]:
    """Every file below the root but git's and fitlog's own, as a workspace name."""
    for folder, folders, files in os.walk(root):
        within = os.path.relpath(folder, root).replace(os.sep, "/")
        if within == ".":
            folders[:] = [each for each in folders if each not in (".git", layout.OWN_FOLDER)]
        folders.sort()
        yield from (name if within == "." else f"{within}/{name}" for name in sorted(files))


def _name_problems(names: list[str]) -> Iterator[Problem]:
    """Names that stop a sync: no text, or one name to macOS and Windows."""
    for name in names:
        if not is_text(name):
            printable = name.encode("utf-8", "surrogateescape").decode("utf-8", "backslashreplace")
            yield Problem(printable, 0, "", name_fault(name), "rename it")
    for one, other in clashes(filter(is_text, names)):
        yield Problem(one, 0, "", f"macOS and Windows cannot tell this name from '{other}'", "rename one of them")


def _name_hints(names: list[str]) -> Iterator[Problem]:
    for name in filter(is_text, names):
        if fault := name_fault(name):
            yield Problem(name, 0, "", fault, "rename it, so that every system can hold it")
