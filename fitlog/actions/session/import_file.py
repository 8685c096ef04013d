"""Import shots from a file through an importer's map, and keep the file."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.edits.tests import append_file, name_row, refuse_decided
from fitlog.history.message import Message
from fitlog.intake.reading import Intake, read_shots
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.importer import Column, Importer, read_importer, to_table
from fitlog.records.models.session import ClubTest, ref
from fitlog.records.naming.names import free_id
from fitlog.records.schema.fields import Fault
from fitlog.saving.desk import Desk
from fitlog.saving.save import Save, SaveResult, saving
from fitlog.views.session.groups import earlier_imports, names_other_club, other_club_sentence
from fitlog.views.session.shot_file import ShotFile
from fitlog.workspace.files import read_bytes
from fitlog.workspace.layout import importer_file, schema_line, session_file, source_file
from fitlog.workspace.text.toml_text import table_text

if TYPE_CHECKING:
    from fitlog.workspace.documents import Document

_COLUMN_KEYS = frozenset(Column._fields)


class ImportResult(NamedTuple):
    """What came in, what did not and why, and what looks odd among it."""

    saved: SaveResult
    shots: int
    unreadable: tuple[str, ...]
    skipped: int
    absent: tuple[str, ...]
    odd: tuple[str, ...]
    source: str


class FileShots(NamedTuple):
    """The shots of one setup of a file, read and not yet put anywhere.

    ``group`` is the setup's name there.
    """

    shots: list[dict[str, Any]]
    file: ShotFile
    group: str
    unreadable: tuple[str, ...]
    skipped: int
    absent: tuple[str, ...]

    @property
    def description(self) -> str:
        """How many from where, in words."""
        return f"{len(self.shots)} shots from {self.file.name}"


def refuse_other_club(group: str, slot: str, where: str) -> None:
    """Refuse shots whose group in the file names another club than the test's.

    Raises Refusal.
    """
    if names_other_club(group, slot):
        raise Refusal(
            other_club_sentence(group, slot),
            where=where,
            do="name the test that they belong to, or say that they are this club's: --other-club",
        )


def read_file(desk: Desk, player: str, file: ShotFile, group: str = "", again: bool = False) -> FileShots:
    """The shots of one setup of a file. A file with several setups needs ``group``.

    Raises Refusal where this file came in before (unless ``again``), or holds several setups and none is named.
    """
    player = desk.workspace.pick_player(player)
    intake = file.preview.intake or read_shots(file.data, file.importer)
    shots = _shots_of_group(intake, group, file.path)
    group = group or next(iter(intake.groups))
    earlier = {} if again else earlier_imports(desk, player, file.source_name)
    if before := earlier.get(group) or earlier.get(""):
        raise Refusal(
            f"this file was imported before, into {before}",
            where=file.path,
            do="leave it, or import it --again on purpose",
        )
    unreadable = tuple(map(str, intake.unreadable))
    return FileShots(shots, file, group, unreadable, len(intake.skipped), intake.absent)


def put_file(desk: Desk, save: Save, document: "Document", player: str, place: int, file: FileShots) -> None:
    """Put a file's shots into the test at ``place``, and the file into sources/.

    Its map is kept too, where it is new or was changed.
    """
    refuse_decided(document.table["test"][place], document.name)
    source = source_row(file.file.source_name, file.file.name, put_map(save, file.file), file.group)
    append_file(desk, document, place, file.shots, source)
    save.put_bytes(source_file(player, file.file.source_name), file.file.data)


def source_row(file: str, name: str, importer: str, group: str) -> dict[str, str]:
    """The row of a test that says where shots came from.

    The file's name in sources/, its own name, the map and the group.
    """
    return {"file": file, "name": name, "importer": importer} | ({"group": group} if group else {})


def import_result(desk: Desk, player: str, where: str, saved: SaveResult, file: FileShots) -> ImportResult:
    """What to tell of shots that came in."""
    session, _, test = desk.workspace.pick_test(player, where)
    odd = _find_odd(desk, player, session, test, file.shots)
    return ImportResult(
        saved, len(file.shots), file.unreadable, file.skipped, file.absent, odd, file.file.source_name
    )


def import_shots(
    desk: Desk,
    player: str,
    where: str,
    file: ShotFile,
    group: str = "",
    again: bool = False,
    other_club: bool = False,
) -> ImportResult:
    """Bring the shots of a file into a test, as ``read_file`` reads it.

    ``other_club`` says yes to a group that the file calls another club. The file goes to sources/ under its content
    hash, and a new or changed map into importers/. Rows that cannot be read are reported; the rest comes in.
    Raises what ``read_file`` raises; nothing is written then.
    """
    player = desk.workspace.pick_player(player)
    read = read_file(desk, player, file, group, again)
    session, _, test = desk.workspace.pick_test(player, where)
    if not other_club:
        refuse_other_club(read.group, test.slot, file.path)
    with saving(desk, settle_shots=True) as save:
        edited = save.open(session_file(player, session))
        place = [row.get("id") for row in edited.table["test"]].index(test.id)
        put_file(desk, save, edited, player, place, read)
        save.put_document(edited)
        subject = f"{name_row(edited.table['test'][place], edited.table['test'])}: {read.description}"
        done = save.commit(
            Message(subject, "import", players=[player], slots=[test.slot], evidence=[ref(session, test.id)])
        )
    return import_result(desk, player, where, done, read)


def _shots_of_group(intake: Intake, group: str, path: str) -> list[dict[str, Any]]:
    """The shots of one setup of the file."""
    names = list(intake.groups)
    if not intake.shots:
        first = str(intake.unreadable[0]) if intake.unreadable else "every line was skipped"
        raise Refusal(f"no shot could be read: {first}", where=path, do="check that this is the right importer")
    if group:
        if group not in intake.groups:
            raise UsageError(f"the file has no setup '{group}'", where=path, do="it has " + ", ".join(names))
        return intake.groups[group]
    if len(names) > 1:
        raise Refusal(
            f"the file holds {len(names)} setups: {', '.join(names)}",
            where=path,
            do="import one at a time with --group NAME, or all at once: fitlog import",
        )
    return intake.groups[names[0]]


def _find_odd(desk: Desk, player: str, session: str, test: ClubTest, shots: list[dict[str, Any]]) -> tuple[str, ...]:
    """What looks implausible among the shots that came in.

    Metres taken for yards, a sign mixed up, a 300 mph ball.

    A shot is named by its place in the file.
    """
    from fitlog.views.session.air import conditions
    from fitlog.views.verdict.context import find_odd

    numbered = [{**shot, "id": str(number)} for number, shot in enumerate(shots, 1)]
    around = conditions(desk, desk.workspace.session(player, session))
    return tuple(map(str, find_odd(numbered, around, test.setup.head.mass_g)))


# importer maps


def map_id(desk: Desk, file: ShotFile) -> str:
    """The id of the map that reads a file; a new map gets one that no other map has."""
    return file.importer_id or free_id(file.importer.name, desk.workspace.importers(), "shot-file")


def put_map(save: Save, file: ShotFile) -> str:
    """Keep the map that reads a file with this save, if it is new or was changed.

    Returns its id.
    """
    name = map_id(save.desk, file)
    if file.is_changed or not file.importer_id:
        put_importer(save, name, file.importer)
    return name


def save_importer(desk: Desk, importer_id: str, importer: Importer) -> SaveResult:
    """Keep a map under an id, so that the next file of this kind comes in at once.

    Raises UsageError for an id or a map that cannot be.
    """
    import re

    if not re.fullmatch(r"[a-z0-9][a-z0-9-]{0,39}", importer_id):
        raise UsageError(f"'{importer_id}' cannot be an importer's id", do="use small letters, digits and hyphens")
    with saving(desk) as save:
        put_importer(save, importer_id, importer)
        return save.commit(Message(f"Importer {importer_id}: {importer.name}", "importer"))


def put_importer(save: Save, importer_id: str, importer: Importer) -> None:
    """Have a map stand under an id when the save commits.

    Raises UsageError for a map that cannot be.
    """
    table: Mapping[str, Any] = to_table(importer)
    name = importer_file(importer_id)
    faults: list[Fault] = []
    read_importer(table, faults)
    if faults:
        raise UsageError(f"{faults[0].path[-1]}: {faults[0].what}", do=faults[0].do)
    if read_bytes(save.desk.root, name) is None:
        save.put(name, schema_line(name, "importer") + table_text(table))
        return
    edited = save.open(name)
    for key in [key for key in edited.table if key not in table]:
        if key in Importer._fields:
            edited.unset((key,))
    for key, value in table.items():
        if key == "column":
            _put_columns(edited, value)
        elif edited.table.get(key) != value:
            edited.set((key,), value)
    save.put_document(edited)


def _put_columns(document: "Document", columns: list[dict[str, Any]]) -> None:
    """Have the map's columns be these; what stands beside one that stays is kept."""
    left = list(columns)
    twins = []
    for number, row in enumerate(document.table.get("column", [])):
        twin = next((each for each in left if all(each.get(k) == row.get(k) for k in ("header", "nth"))), None)
        twins.append((number, twin))
        if twin is not None:
            left.remove(twin)
    for number, twin in reversed(twins):
        if twin is None:
            document.drop("column", number)
        else:
            document.become(
                ("column", number), twin, keep=frozenset(set(document.table["column"][number]) - _COLUMN_KEYS)
            )
    for each in left:
        document.add("column", each)
