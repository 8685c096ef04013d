"""A watched folder, watched by the system itself: rows are there within a second of being written."""

import time
from pathlib import Path
from threading import Event

from fitlog.records.models.importer import Column, Importer
from fitlog.system.folder_watch import changed_files
from fitlog.views.session.folder_watch import FolderWatch

MAP = Importer("Bay", summary=(), column=(Column("Carry", "carry_yd"), Column("Side", "offline_yd")))
ROWS = 3


def test_a_row_is_there_within_a_second(tmp_path: Path) -> None:
    path, stop = tmp_path / "bay.csv", Event()
    path.write_text("Carry,Side\n", encoding="utf-8")
    folder = FolderWatch(str(tmp_path), MAP)
    took, got, written = [], 0, 0.0
    for paths in changed_files(str(tmp_path), stop):
        found = [shot for each in folder.look(paths, time.monotonic()) for shot in each.shots]
        if written and found:
            took.append(time.monotonic() - written)
            got += len(found)
        if got == ROWS or (written and time.monotonic() - written > 20):
            stop.set()
        elif not written or found:
            with path.open("a", encoding="utf-8") as file:
                file.write(f"{150 + got},1\n")
            written = time.monotonic()
    assert got == ROWS
    assert min(took) < 1, took  # the best of three: the machine may be busy with other things
