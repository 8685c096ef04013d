"""The ``.git`` folder of a workspace, made by fitlog or checked before use."""

import os
import stat
from contextlib import suppress

from fitlog.history.plumbing.environment import load_gitpython, runner
from fitlog.history.plumbing.git_errors import no_git
from fitlog.history.plumbing.version import check_version
from fitlog.records.errors import Refusal

# bytes go in as they are, no filter of a stranger's runs, and plain ``git merge`` merges as fitlog does
ATTRIBUTES = "* -text -filter -ident !working-tree-encoding\n*.toml merge=fitlog\n"
DRIVER = (
    ("merge.fitlog.name", "merge by meaning"),
    ("merge.fitlog.driver", "fitlog merge-file %O %A %B %P"),
)
# Through a link here, git or fitlog would write where somebody else chose.
_NO_LINKS = (
    "", "HEAD", "config", "index", "info", "objects", "packed-refs", "refs", "refs/heads", "refs/heads/main",
    "logs", "logs/HEAD", "logs/refs", "logs/refs/heads", "logs/refs/heads/main",
)  # fmt: skip

# Git reads these whenever it starts: a pipe in the place of one would keep it waiting without end.
_PLAIN = ("HEAD", "config", "index", "packed-refs", "info/attributes", "refs/heads/main", "logs/HEAD")


def init_repository(root: str) -> None:
    """Make a repository at ``root``, on branch main, without templates or hooks.

    An existing one is left as it is.

    Raises Refusal where git is missing, too old, or may not write there.
    """
    _init(root)
    prepare_repository(root)


def init_shared(root: str) -> None:
    """Make a repository that several workspaces share at ``root``.

    Raises Refusal as ``init_repository`` does.
    """
    _init(root, "--bare")


def _init(root: str, *options: str) -> None:
    git = load_gitpython()
    run = runner(root)
    run.update_environment(GIT_WORK_TREE=None)  # git init takes none
    try:
        check_version(root, run)
        run.execute(["git", "init", "--quiet", "--initial-branch=main", "--template=", *options, "."])
    except git.GitCommandNotFound as error:
        raise no_git() from error
    except git.GitCommandError as error:
        why = error.stderr.strip().removeprefix("stderr:").strip(" '").removeprefix("error: ").removeprefix("fatal: ")
        raise Refusal(f"git could not make a repository: {why}", where=root,
                      do="mend that, or name another folder") from error  # fmt: skip


def prepare_repository(root: str) -> None:
    """Have the repository treat files as needed, whatever ``.gitattributes`` say."""
    _keep_attributes(root)
    _keep_driver(root)


def check_repository(root: str) -> None:
    """Check the ``.git`` folder before git does.

    It may have come from a stranger with the rest of the workspace.

    Raises Refusal where there is none, where it leads out of the workspace or holds what is no plain file.
    """
    folder = os.path.join(root, ".git")
    if not os.path.lexists(folder):
        raise Refusal(
            "this workspace has no history: its folder is not a git repository of its own",
            where=root,
            do="make one with: fitlog check --repair",
        )
    _check_plain(folder)
    away = next((name for name in _NO_LINKS if os.path.islink(os.path.join(folder, name).rstrip("/"))), None)
    if away is None and os.path.isdir(folder) and not os.path.lexists(os.path.join(folder, "commondir")):
        with suppress(OSError):  # where it may not be written, nothing is going to be saved either
            _keep_attributes(root)
            if not _driver_stands(root):  # a plain ``git clone``: its ``git merge`` would leave marks in files
                _keep_driver(root)
        return
    where = f".git/{away}" if away else ".git"
    raise Refusal(
        f"this workspace's history is kept elsewhere: its {where} leads there, and fitlog does not follow",
        where=root,
        do="copy the workspace together with its whole .git folder, or start again from its shared repository "
        "with: fitlog init DIR --from PATH-OR-URL",
    )


def _check_plain(folder: str) -> None:
    for name in _PLAIN:
        path = os.path.join(folder, name)
        with suppress(FileNotFoundError, NotADirectoryError):
            if not stat.S_ISREG(os.lstat(path).st_mode) and not os.path.islink(path):
                raise Refusal("is not a plain file, and git would wait for it forever", where=f".git/{name}",
                              do="remove it, then run: fitlog check --repair")  # fmt: skip


def _keep_attributes(root: str) -> None:
    """Set git's own attributes for this workspace, which overrule all others."""
    path = os.path.join(root, ".git", "info", "attributes")
    if attributes_are_ours(root):
        return
    os.makedirs(os.path.dirname(path), exist_ok=True)
    fresh = f"{path}.{os.urandom(4).hex()}"
    with open(fresh, "x", encoding="ascii") as file:
        file.write(ATTRIBUTES)
    os.replace(fresh, path)


def _keep_driver(root: str) -> None:
    """Register the merge by meaning with plain git.

    Where the configuration may not be written, it stays as it is.
    """
    for key, value in DRIVER:
        runner(root).execute(["git", "config", "--local", "--replace-all", key, value], with_exceptions=False)


def _driver_stands(root: str) -> bool:
    with open(os.path.join(root, ".git", "config"), "rb") as file:
        return b"driver = " + DRIVER[1][1].encode() in file.read()


def attributes_are_ours(root: str) -> bool:
    """Whether git's own attributes for this workspace are as fitlog wrote them."""
    path = os.path.join(root, ".git", "info", "attributes")
    try:
        with open(path, encoding="ascii") as file:
            return not os.path.islink(path) and file.read() == ATTRIBUTES
    except (OSError, UnicodeDecodeError):
        return False
