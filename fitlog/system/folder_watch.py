"""Watching a folder for files that appear or grow."""

import os
from collections.abc import Iterator
from threading import Event

_STEP_MS, _DEBOUNCE_MS, _LOOK_MS = 50, 200, 500


def changed_files(folder: str, stop: Event | None = None) -> Iterator[set[str]]:
    """The paths of a folder's files as they change, until ``stop`` is set.

    Every half second at least an empty set, so that the caller can look at what it waits for.

    Raises KeyboardInterrupt at Ctrl-C.
    """
    from watchfiles import Change, watch

    first = set(files_in(folder))  # what changed before the watching began
    for changes in watch(
        folder,
        watch_filter=None,
        debounce=_DEBOUNCE_MS,
        step=_STEP_MS,
        stop_event=stop,
        rust_timeout=_LOOK_MS,
        yield_on_timeout=True,
        recursive=False,
        raise_interrupt=True,
    ):
        yield first | {path for change, path in changes if change != Change.deleted and _may_hold_shots(path)}
        first = set()


def files_in(folder: str) -> list[str]:
    """The paths of the files of a folder that may hold shots.

    Raises OSError for a folder that cannot be read.
    """
    with os.scandir(folder) as entries:
        return sorted(entry.path for entry in entries if entry.is_file() and _may_hold_shots(entry.path))


def _may_hold_shots(path: str) -> bool:
    name = os.path.basename(path)
    return not name.startswith((".", "~")) and not name.endswith(("~", ".tmp", ".part", ".crdownload"))
