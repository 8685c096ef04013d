"""Write a backup in one file; make a workspace from one or from a shared place."""

import os
import shutil
from typing import NamedTuple

from fitlog.actions.workspace.create import new_folder
from fitlog.history.message import Entry
from fitlog.records.errors import FitlogError, Refusal
from fitlog.records.models.settings import GET_NEWER, newer_schema_message
from fitlog.saving.desk import Desk
from fitlog.saving.save import settle_shots
from fitlog.sync.incoming import check_files
from fitlog.system.files import plain_target, replacing, sync_folder
from fitlog.workspace.layout import WORKSPACE_FILE


class Backup(NamedTuple):
    """A backup that was written and read back.

    It says where it is, how large, how many commits, and what it does not hold.
    """

    file: str
    size: int
    commits: int
    notes: tuple[str, ...]


def backup(desk: Desk, file: str) -> Backup:
    """Write the whole history into one file, verified before it gets its name.

    What is pending or edited by hand is committed first; what cannot be (a broken file's edit, a disk that is full or
    read-only) is not in it, and is told.
    Raises Refusal where the file cannot be written, or is there already and is no backup.
    """
    from fitlog.history.plumbing.remote import is_bundle
    from fitlog.sync.exchange import commit_pending

    try:
        path = plain_target(file)
    except OSError as error:
        raise Refusal(f"{error.strerror}", where=file, do="name a file, such as van.bundle") from error
    if os.path.exists(path) and os.path.getsize(path) and not is_bundle(path):
        raise Refusal("a file of this name is there, and it is not a backup", where=path, do="name another file")
    if path.startswith(os.path.realpath(desk.root) + os.sep):
        raise Refusal("a backup inside the workspace is lost with it", where=path, do="name a place outside")
    notes = []
    try:
        settle_shots(desk)
        notes = commit_pending(desk)
    except FitlogError as error:  # a workspace that cannot be saved in is the one to have a backup of
        notes.append(f"only what was saved before is in it: {error}")
    git = desk.history.git
    try:
        with replacing(path) as scratch:
            try:
                git.run("bundle", "create", "--quiet", scratch, "HEAD", "--branches", "--tags")
                git.run("bundle", "verify", "--quiet", scratch)
            finally:
                if os.path.exists(scratch + ".lock"):
                    os.unlink(scratch + ".lock")
            with open(scratch, "rb") as written:
                os.fsync(written.fileno())
        sync_folder(os.path.dirname(path))
    except OSError as error:
        raise Refusal(
            f"the backup cannot be written: {error.strerror}", where=path, do="name another place"
        ) from error
    commits = int(git.run("rev-list", "--count", "HEAD"))
    return Backup(path, os.path.getsize(path), commits, tuple(notes))


def init_from(desk: Desk, source: str) -> Entry:
    """Make the desk's folder the workspace of a backup file or shared repository.

    Returns its last change.

    A shared repository is remembered as the one to sync with.
    Raises Refusal where the folder holds other things or the source is no workspace.
    """
    from fitlog.history.plumbing import remote

    root = desk.root
    address = remote.resolve_address(source, os.getcwd())
    is_file = os.path.isfile(address)
    if is_file and not remote.is_bundle(address):
        raise Refusal("this file is not a fitlog backup", where=address, do="name one made with: fitlog backup FILE")
    new_folder(root)
    try:
        desk.history.create()
        commit = _fetch_workspace(desk, address)
        git = desk.history.git
        git.run("update-ref", "-m", "fitlog: init", "HEAD", commit)
        git.run("reset", "--quiet", "--hard", commit)
    except BaseException:  # nothing of a try that failed is in the way of the next one
        desk.close()
        for name in os.listdir(root):  # it was empty, so all of it is ours
            path = os.path.join(root, name)
            shutil.rmtree(path, ignore_errors=True) if os.path.isdir(path) else os.unlink(path)
        raise
    if is_file:
        git.run("update-ref", "-d", remote.TRACKING)
    else:
        remote.remember(git, address)
    return desk.history.entries(limit=1)[0]


def _fetch_workspace(desk: Desk, address: str) -> str:
    """The last commit of what is there, which must be a workspace of plain files."""
    from fitlog.history.plumbing import remote
    from fitlog.history.plumbing.advance import PLAIN

    git = desk.history.git
    commit = remote.fetch(git, address)
    if not commit or not git.blob_id(commit, WORKSPACE_FILE):
        raise Refusal(f"it holds no fitlog workspace (no {WORKSPACE_FILE} on its branch main)", where=address,
                      do="name a backup or the shared repository of a workspace")  # fmt: skip
    if text := newer_schema_message(desk.history.table_at(commit, WORKSPACE_FILE)):
        raise Refusal(text, where=address, do=GET_NEWER)
    files: dict[str, str] = {}
    for line in git.run("ls-tree", "-r", "-z", "--end-of-options", commit).split("\0")[:-1]:
        mode, name = line.partition(" ")[0], line.partition("\t")[2]
        if mode not in PLAIN:
            raise Refusal("it holds a link here, and fitlog takes plain files only", where=name,
                          do="have it replaced by the file itself, there")  # fmt: skip
        files[name] = line.partition("\t")[0].split()[2]
    check_files(git, files, files)
    return commit
