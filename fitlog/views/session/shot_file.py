"""A shot file looked into: the importer that reads it, and what it gives."""

import os
from collections.abc import Sequence
from contextlib import suppress
from typing import NamedTuple

from fitlog.intake.map_guess import guess
from fitlog.intake.preview import ColumnPreview as ColumnPreview
from fitlog.intake.preview import Preview as Preview
from fitlog.intake.preview import preview
from fitlog.intake.reading import Intake as Intake
from fitlog.intake.source import content_hash
from fitlog.records.errors import FitlogError, Refusal
from fitlog.records.models.importer import Importer
from fitlog.records.naming.ids import pick
from fitlog.records.wording.words import format_label
from fitlog.saving.desk import Desk
from fitlog.workspace.files import read_any_file as read_any_file

_HASH_LENGTH = 16


class ShotFile(NamedTuple):
    """A file seen through a map; ``importer_id`` is empty for a proposed one.

    ``is_changed``: a person changed the map, so that it is to be kept with what is imported.
    """

    path: str
    data: bytes
    importer_id: str
    importer: Importer
    preview: Preview
    is_changed: bool = False

    @property
    def source_name(self) -> str:
        """What the file is called in sources/."""
        return source_name(self.path, self.data)

    @property
    def name(self) -> str:
        """What the file is called where it came from."""
        return os.path.basename(self.path)

    @property
    def column_meanings(self) -> str:
        """What each column that is taken means, in words."""
        return ", ".join(f"{each.header} is {format_label(each.key)}" for each in self.importer.column)


def source_name(path: str, data: bytes) -> str:
    """The name of a shot file in sources/: its content's hash and its ending."""
    return f"{content_hash(data)[:_HASH_LENGTH]}{os.path.splitext(path)[1].lower()}"


def look_into(desk: Desk, path: str, importer: str = "") -> ShotFile:
    """A file through the named importer, the one that fits, or a proposed map.

    One fits where it reads all that it names; of several, the one with most columns.

    Raises UsageError for a file or importer that is not there, Refusal for a file that is no table of shots.
    """
    return look_into_data(desk, path, read_any_file(path), importer)


def look_into_data(desk: Desk, path: str, data: bytes, importer: str = "") -> ShotFile:
    """As ``look_into``, of bytes that are at hand already."""
    found = find_map(desk, path, data, importer)
    if found.preview.intake is None:
        raise Refusal(
            "no column of this file is understood",
            where=path,
            do="say what its columns are: fitlog importer add ID FILE --column HEADER=KEY",
        )
    return found


def find_map(desk: Desk, path: str, data: bytes, importer: str = "") -> ShotFile:
    """As ``look_into_data``, but a map that names no column is returned too.

    A person then fills it in.
    """
    known = desk.workspace.importers()
    if importer:
        name = pick(importer, known, "importer")
        chosen = desk.workspace.importer(name)
        return ShotFile(path, data, name, chosen, preview(data, chosen))
    for name, chosen in _most_columns_first(desk, known):
        try:
            seen = preview(data, chosen)
        except FitlogError:
            continue
        if seen.intake and seen.intake.shots and not seen.intake.absent:
            return ShotFile(path, data, name, chosen, seen)
    return propose_map(path, data)


def _most_columns_first(desk: Desk, known: Sequence[str]) -> list[tuple[str, Importer]]:
    """The maps that can be read, those that leave least of the file out first."""
    found = []
    for name in known:
        with suppress(FitlogError):
            found.append((name, desk.workspace.importer(name)))
    return sorted(found, key=lambda each: -len(each[1].column))


def propose_map(path: str, data: bytes) -> ShotFile:
    """A file seen through a map guessed from it, for a person to confirm."""
    proposed = guess(data, os.path.splitext(os.path.basename(path))[0])
    return ShotFile(path, data, "", proposed, preview(data, proposed))


def change_map(file: ShotFile, importer: Importer) -> ShotFile:
    """The file seen through a map as a person changed it."""
    return file._replace(importer=importer, preview=preview(file.data, importer), is_changed=True)
