"""The demo: an invented fitting business, replayed at fixed times."""

import os
import shutil
from collections.abc import Iterator

from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.workspace.layout import OWN_FOLDER, WORKSPACE_FILE

NAME = "Skerrow Gap fitting"
AUTHOR, EMAIL = "Hettie Dunnock", "hettie@skerrow-gap.example"
_GIT = ".git"


def make_demo(path: str, quick: bool = True) -> SaveResult:
    """Make the demo with its whole history in a new or empty folder.

    The same commits everywhere.

    A demo that is there already is left as it is, with whatever was tried in it.
    ``quick=False`` makes each commit by a git process of its own and computes the numbers beside each verdict anew:
    the same history, some seconds later.
    Raises Refusal where the folder holds something else.
    """
    path = os.path.abspath(os.path.expanduser(path))
    if is_demo(path):
        return SaveResult("", "the demo is here already, as it was left; for a fresh one name another folder")
    if os.path.lexists(path) and (not os.path.isdir(path) or os.listdir(path)):
        raise Refusal("this is not empty and no demo", where=path, do="name a new or empty folder")
    making = f"{path}.making-{os.getpid()}"
    try:
        os.makedirs(making)
        done = _replay(making, quick)
        _move(making, path)
    except OSError as error:
        raise Refusal(f"the demo cannot be made: {error.strerror}", where=path, do="choose another place") from error
    finally:
        shutil.rmtree(making, ignore_errors=True)
    return done


def is_demo(path: str) -> bool:
    """Whether this folder is a demo, by its name and its first commit's author."""
    from fitlog.records.errors import FitlogError

    if not os.path.isdir(os.path.join(path, _GIT)):
        return False
    with Desk(path) as desk:
        try:
            if desk.workspace.settings().name != NAME:
                return False
            entries = desk.history.entries()
            return bool(entries) and entries[-1].author == AUTHOR and entries[-1].action == "init"
        except FitlogError:
            return False


def _replay(root: str, quick: bool) -> SaveResult:
    from fitlog.actions.workspace.create import init
    from fitlog.demo.replay import Clock, Teller, seeded_draw
    from fitlog.demo.story import tell
    from fitlog.history.history import Author
    from fitlog.workspace.files import defer_sync

    clock = Clock()
    with defer_sync(root), Desk(root, clock, seeded_draw(), stamp=True, bulk=quick) as desk:
        desk.history.author = Author(AUTHOR, EMAIL)
        init(desk, NAME)
        tell(Teller(desk, clock, quick))
        desk.history.finish()
        return SaveResult(desk.history.head(), f"Demo workspace: {NAME}")


def _move(made: str, path: str) -> None:
    """Put the finished demo where it belongs; an empty folder there stays."""
    if not os.path.isdir(path):
        os.rename(made, path)
        return
    for name in sorted(os.listdir(made), key=lambda each: each == WORKSPACE_FILE):
        os.rename(os.path.join(made, name), os.path.join(path, name))


def plain_files(root: str) -> Iterator[str]:
    """The names of a workspace's files without history and own folder, sorted."""
    names = []
    for folder, folders, files in os.walk(root):
        folders[:] = [each for each in folders if each not in (_GIT, OWN_FOLDER)]
        names += [os.path.relpath(os.path.join(folder, each), root).replace(os.sep, "/") for each in files]
    yield from sorted(names)


def write_plain(folder: str) -> None:
    """Bring a folder to the replay's plain files; others are removed.

    The folder is this project's ``demo_workspace``: what is written by hand there is what the replay reads.
    """
    import tempfile

    with tempfile.TemporaryDirectory() as made:
        root = os.path.join(made, "demo")
        make_demo(root, quick=False)
        wanted = list(plain_files(root))
        for name in plain_files(folder):
            if name not in wanted:
                os.unlink(os.path.join(folder, name))
        for name in wanted:
            to = os.path.join(folder, name)
            os.makedirs(os.path.dirname(to), exist_ok=True)
            shutil.copyfile(os.path.join(root, name), to)
