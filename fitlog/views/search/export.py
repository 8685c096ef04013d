"""Shots and verdicts as one plain table, read from the files."""

import os
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from datetime import date, time
from importlib import import_module
from typing import Any, NamedTuple

from fitlog.index.queries import Hit
from fitlog.records.errors import FitlogError, Refusal, UsageError
from fitlog.records.models.session import MEASURES, ClubTest, Session, ref
from fitlog.records.naming.refs import ClubRef
from fitlog.records.schema.dotted_keys import flatten
from fitlog.records.wording.words import describe_setup
from fitlog.saving.desk import Desk
from fitlog.system.files import replacing
from fitlog.views.session.plans import hidden_tests

SHOTS, VERDICTS = "shots", "verdicts"
Progress = Callable[[int, int], None]
Row = dict[str, Any]

_SETUP = (
    "head.model", "head.loft_deg", "shaft.model", "shaft.flex", "shaft.tip_trim_in", "grip.model", "sleeve.position",
    "length_in", "loft_deg", "lie_deg",
)  # fmt: skip
_TEST = ("player", "session", "date", "season", "place", "ball", "test", "slot", "kind", "role", "setup", *_SETUP)
COLUMNS: Mapping[str, tuple[str, ...]] = {
    SHOTS: (*_TEST, "decision", "shot", "at", *MEASURES, "feel", "excluded", "note"),
    VERDICTS: (
        *(*_TEST, "decision", "reason", "on", "by", "method", "shots", "shots_left_out"),
        *(f"mean.{key}" for key in MEASURES),
    ),
}
# What makes a spreadsheet take a text for a formula; the last four are the same signs in full width.
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20")


class ExportResult(NamedTuple):
    """What was written, and what was not.

    Players who asked to be left out (how many), files that cannot be read.
    """

    path: str
    rows: int
    left_out: int
    broken_files: tuple[str, ...]


def export(
    desk: Desk,
    path: str,
    what: str = SHOTS,
    only: Collection[Hit] | None = None,
    overwrite: bool = False,
    progress: Progress | None = None,
) -> ExportResult:
    """Write shots or verdicts to a ``.csv`` or, with pyarrow, a ``.parquet`` file.

    ``only`` keeps to tests that were found. Players with ``left_out = true`` are passed over, and so are those whose
    own file cannot be read, as nobody knows then.
    Raises UsageError for another kind of file, Refusal where it cannot be written or is there already.
    """
    if what not in COLUMNS:
        raise UsageError(f"'{what}' cannot be exported", do="write shots or verdicts")
    write = _writer(path)
    _check_place(desk, path, overwrite)
    gathered = _ExportRows(desk, what, None if only is None else {(hit.player, hit.ref) for hit in only}, progress)
    try:
        with replacing(path) as fresh:
            rows = write(fresh, COLUMNS[what], gathered.rows())
    except OSError as error:
        raise Refusal(
            f"cannot be written: {error.strerror}", where=path, do="choose a folder you may write to"
        ) from error
    return ExportResult(path, rows, gathered.left_out, tuple(gathered.broken_files))


def _check_place(desk: Desk, path: str, overwrite: bool) -> None:
    folder = os.path.realpath(os.path.dirname(os.path.abspath(path)))
    if (folder + os.sep).startswith(os.path.realpath(desk.root) + os.sep):
        raise Refusal(
            "an export inside the workspace would become part of its history",
            where=path,
            do="choose a place outside, such as ../" + os.path.basename(path),
        )
    if os.path.lexists(path) and not overwrite:
        raise Refusal("there is such a file already", where=path, do="choose another name, or add --overwrite")


class _ExportRows:
    """The rows of an export as they are read, and what was passed over on the way."""

    def __init__(self, desk: Desk, what: str, only: set[tuple[str, str]] | None, progress: Progress | None) -> None:
        self.desk, self.only, self.progress = desk, only, progress
        self.of_test = _shot_rows if what == SHOTS else _verdict_rows
        self.left_out = 0
        self.broken_files: list[str] = []

    def rows(self) -> Iterator[Row]:
        """Player by player, oldest session first."""
        sessions = [(player, session) for player in self._players() for session in self._sessions(player)]
        for done, (player, name) in enumerate(sessions):
            if self.progress and done % 50 == 0:
                self.progress(done, len(sessions))
            try:
                session = self.desk.workspace.session(player, name)
            except FitlogError as fault:
                self.broken_files += str(fault).splitlines()
                continue
            hidden = hidden_tests(session)
            for test in session.test:
                if test.id in hidden:
                    continue
                if self.only is None or (player, ref(name, test.id)) in self.only:
                    yield from self.of_test(_test_row(player, name, session, test), test)

    def _players(self) -> Iterator[str]:
        wanted = None if self.only is None else {player for player, _ in self.only}
        for player in self.desk.workspace.players():
            if wanted is not None and player not in wanted:
                continue
            try:
                if self.desk.workspace.player(player).left_out:
                    self.left_out += 1
                else:
                    yield player
            except FitlogError as fault:
                self.broken_files += str(fault).splitlines()

    def _sessions(self, player: str) -> list[str]:
        known = self.desk.workspace.sessions(player)
        if self.only is None:
            return known
        wanted = {ClubRef.parse(address).slot for who, address in self.only if who == player}
        return [each for each in known if each in wanted]


def _test_row(player: str, name: str, session: Session, test: ClubTest) -> Row:
    setup = test.raw.get("setup", {})
    values = dict(flatten(setup))
    ball = " ".join(str(each) for each in (session.ball.model or session.ball.part, session.ball.year) if each)
    return {
        "player": player,
        "session": name,
        "date": session.date,
        "season": session.season,
        "place": session.place,
        "ball": ball or None,
        "test": test.id,
        "slot": test.slot,
        "kind": test.of_kind,
        "role": test.role,
        "setup": describe_setup(setup),
        "decision": test.verdict.decision if test.verdict else None,
        **{key: values.get(key) for key in _SETUP},
    }


def _shot_rows(row: Row, test: ClubTest) -> Iterator[Row]:
    for shot in test.shots:
        values = shot._asdict()
        yield {**row, **values, "shot": values.pop("id")}


def _verdict_rows(row: Row, test: ClubTest) -> Iterator[Row]:
    if test.verdict is None:
        return
    counted = test.counted_shots
    means = {}
    for key in MEASURES:
        values = [value for shot in counted if (value := getattr(shot, key)) is not None]
        means[f"mean.{key}"] = round(sum(values) / len(values), 4) if values else None
    verdict = test.verdict._asdict()
    yield {**row, **verdict, "shots": len(counted), "shots_left_out": len(test.shots) - len(counted), **means}


# the file


Writer = Callable[[str, Sequence[str], Iterator[Row]], int]


def _writer(path: str) -> Writer:
    tail = os.path.splitext(path)[1].lower()
    if tail == ".csv":
        return _write_csv
    if tail in (".parquet", ".pq"):
        _pyarrow()
        return _write_parquet
    raise UsageError(f"'{path}' is neither a .csv nor a .parquet file", do="end its name in .csv or .parquet")


def harmless_cell(value: Any) -> Any:
    """A value for a CSV cell; what a spreadsheet takes for a formula gets a ``'``.

    >>> harmless_cell("=1+1"), harmless_cell(-3.5), harmless_cell("low spin")
    ("'=1+1", -3.5, 'low spin')
    """
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, str) and value.startswith(_FORMULA):
        return "'" + value
    return value


def _write_csv(path: str, columns: Sequence[str], rows: Iterator[Row]) -> int:
    import csv

    count = 0
    with open(path, "w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(columns)
        for row in rows:
            writer.writerow([harmless_cell(row.get(column)) for column in columns])
            count += 1
    return count


def _pyarrow() -> Any:
    try:
        import_module("pyarrow.parquet")
        return import_module("pyarrow")
    except ImportError as error:
        raise Refusal(
            "Parquet needs the library pyarrow, which is not installed",
            do="install it with: pip install pyarrow, or export to a .csv file",
        ) from error


def _write_parquet(path: str, columns: Sequence[str], rows: Iterator[Row]) -> int:
    pyarrow = _pyarrow()
    gathered: dict[str, list[Any]] = {column: [] for column in columns}
    count = 0
    for row in rows:
        count += 1
        for column in columns:
            gathered[column].append(_plain(column, row.get(column)))
    types = {column: pyarrow.float64() if _is_number(column) else pyarrow.string() for column in columns}
    types |= {column: pyarrow.date32() for column in ("date", "on") if column in types}
    arrays = [pyarrow.array(values, types[column]) for column, values in gathered.items()]
    pyarrow.parquet.write_table(pyarrow.table(arrays, names=list(columns)), path)
    return count


def _is_number(column: str) -> bool:
    from fitlog.records.wording.words import is_number

    return column.removeprefix("mean.") in MEASURES or column in ("shots", "shots_left_out") or is_number(column)


def _plain(column: str, value: Any) -> Any:
    if value is None or isinstance(value, date):
        return value
    if _is_number(column):
        return float(value) if isinstance(value, int | float) else None
    return value.isoformat() if isinstance(value, time) else str(value)
