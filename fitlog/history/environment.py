"""What every git of ours runs under, so that nothing of a person's or a stranger's configuration steers a save."""

import os
from collections.abc import Sequence
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
# Set by a surrounding git (a hook, another repository's shell), they would point us somewhere else.
_FOREIGN = (
    "GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_OBJECT_DIRECTORY", "GIT_ALTERNATE_OBJECT_DIRECTORIES",
    "GIT_COMMON_DIR", "GIT_NAMESPACE", "GIT_PREFIX", "GIT_EXTERNAL_DIFF", "GIT_CONFIG_PARAMETERS",
    "GIT_AUTHOR_NAME", "GIT_AUTHOR_EMAIL", "GIT_AUTHOR_DATE", "GIT_COMMITTER_NAME", "GIT_COMMITTER_EMAIL",
    "GIT_COMMITTER_DATE", "GIT_LITERAL_PATHSPECS", "GIT_GLOB_PATHSPECS", "GIT_ICASE_PATHSPECS",
)  # fmt: skip


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


def load_gitpython() -> Any:
    """GitPython, loaded at first use: it costs 70 ms, which reading a bag must not pay."""
    os.environ.setdefault("GIT_PYTHON_REFRESH", "quiet")
    import git

    return git


def runner(root: str) -> "Git":
    """GitPython's runner of git processes at ``root``; it reads no configuration itself."""
    from pathlib import Path  # GitPython would put the environment's values into a text such as /srv/$HOME

    for name in _FOREIGN:
        os.environ.pop(name, None)
    made: Git = load_gitpython().Git(Path(root))
    made.update_environment(**environment(root))
    return made
