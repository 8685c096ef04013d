"""The environment of every git of ours.

Nothing of a person's or a stranger's configuration steers a save.
"""

import os
import sys
from collections.abc import Sequence
from importlib import import_module
from threading import Lock
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from git import Git

# Given to every call: what a person's own configuration could hold is overruled, never edited.
_CONFIG = {
    "core.hooksPath": os.devnull,
    "core.fsmonitor": "false",
    "core.untrackedCache": "false",
    "core.autocrlf": "false",
    "core.safecrlf": "false",
    "core.eol": "lf",
    "core.fileMode": "false",
    "core.longPaths": "true",  # Windows: git's own limit of 260 characters
    "core.protectNTFS": "true",
    "core.precomposeUnicode": "false",  # macOS: a name stays as it was written
    "core.quotePath": "false",
    "core.editor": "true",
    "core.pager": "cat",
    "core.attributesFile": os.devnull,
    "core.excludesFile": os.devnull,
    "core.fsync": "committed",
    "core.splitIndex": "false",
    "commit.gpgSign": "false",
    "commit.verbose": "false",
    "commit.status": "false",
    "tag.gpgSign": "false",
    "i18n.commitEncoding": "UTF-8",
    "i18n.logOutputEncoding": "UTF-8",
    "log.showSignature": "false",
    "log.mailmap": "false",
    "log.follow": "false",
    "color.ui": "false",
    "diff.noprefix": "false",
    "diff.mnemonicPrefix": "false",
    "advice.graftFileDeprecated": "false",  # said of every GIT_GRAFT_FILE, an empty one too
    "gc.auto": "0",
    "maintenance.auto": "false",
    "init.templateDir": "",
    "init.defaultBranch": "main",
    "user.useConfigOnly": "false",
    "submodule.recurse": "false",
    "protocol.ext.allow": "never",
}
# Of a person's environment only this reaches git: how to get to another machine, and where their own settings stand.
# All else would point us at another repository, mix a trace into git's answers, or date commits.
_THEIRS = frozenset((
    "GIT_SSH", "GIT_SSH_COMMAND", "GIT_SSH_VARIANT", "GIT_ASKPASS", "GIT_SSL_NO_VERIFY", "GIT_SSL_CAINFO",
    "GIT_SSL_CAPATH", "GIT_SSL_CERT", "GIT_SSL_KEY", "GIT_PROXY_SSL_CAINFO", "GIT_HTTP_PROXY_AUTHMETHOD",
    "GIT_CONFIG_GLOBAL", "GIT_CONFIG_SYSTEM", "GIT_CONFIG_NOSYSTEM", "GIT_EXEC_PATH",
))  # fmt: skip


def forget_foreign() -> None:
    """Drop every variable of git and GitPython that is no choice of a person's own."""
    for name in [name for name in os.environ if name.startswith("GIT_") and name not in _THEIRS]:
        del os.environ[name]


def environment(root: str, more: Sequence[tuple[str, str]] = ()) -> dict[str, str]:
    """The environment of a git that works on the workspace at ``root``.

    ``more`` are further settings, the last word on their keys.
    """
    whole = os.path.abspath(root)
    settings = {"GIT_CONFIG_COUNT": str(len(_CONFIG) + len(more))}
    for number, (key, value) in enumerate([*_CONFIG.items(), *more]):
        settings |= {f"GIT_CONFIG_KEY_{number}": key, f"GIT_CONFIG_VALUE_{number}": value}
    return {
        **settings,
        "GIT_TERMINAL_PROMPT": "0",
        "GIT_EDITOR": "true",
        "GIT_PAGER": "cat",
        "GIT_CEILING_DIRECTORIES": os.path.dirname(whole),
        "GIT_WORK_TREE": whole,  # whatever core.worktree and core.bare of a stranger's workspace say
        "GIT_LITERAL_PATHSPECS": "1",  # a file called [ab].toml is itself and neither a.toml nor b.toml
        "GIT_GRAFT_FILE": os.devnull,
        "GIT_NO_REPLACE_OBJECTS": "1",
        "GIT_NO_LAZY_FETCH": "1",
        "GIT_ATTR_NOSYSTEM": "1",
        "LC_ALL": "C.UTF-8",
    }


_LOADING = Lock()


def load_gitpython() -> Any:
    """Load GitPython at first use.

    It costs 70 ms, which reading a bag must not pay.
    """
    with _LOADING:  # threads of the app begin at the same time
        if "git" not in sys.modules:
            forget_foreign()
            # it asks git for its version, which a person's broken settings would make fail before we can say so
            shielded = {"GIT_PYTHON_REFRESH": "quiet", "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1"}
            before = {name: os.environ.get(name) for name in shielded}
            os.environ.update(shielded)
            try:
                import_module("git")
            finally:
                for name, value in before.items():
                    os.environ.pop(name) if value is None else os.environ.update({name: value})
    return sys.modules["git"]


def runner(root: str) -> "Git":
    """GitPython's runner of git processes at ``root``; reads no configuration."""
    from pathlib import Path  # GitPython would put the environment's values into a text such as /srv/$HOME

    git = load_gitpython()
    with _LOADING:  # not while another thread loads it: its shields would be dropped
        forget_foreign()
    made: Git = git.Git(Path(root))
    made.update_environment(**environment(root))
    return made
