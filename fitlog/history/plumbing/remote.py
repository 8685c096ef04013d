"""The shared repository: reached by any path or URL git takes, never trusted.

Nothing that a workspace's or the shared repository's own configuration names is run: no hook, helper, proxy or
transport program. What a person's own configuration names (ssh, credentials) is theirs and is used.
"""

import os
import re
import subprocess
import time
from urllib.parse import urlsplit

from fitlog.history.plumbing.environment import environment
from fitlog.history.plumbing.git import BRANCH, LOCK_PATIENCE_S, Git, in_the_way
from fitlog.history.plumbing.repository import init_shared
from fitlog.records.errors import Refusal
from fitlog.system.files import open_plain
from fitlog.system.processes import chunks, end_group, own_group

NAME = "origin"
NEW_ONE = "name an empty folder: it becomes a new one"
TRACKING = f"refs/remotes/{NAME}/main"
SILENCE_S, SILENCE_HERE_S = 12.0, 45.0  # on this machine only load makes a git slow
_OBJECTS_A_SECOND = 200
_PROTOCOLS = "file:git:http:https:ssh"
_SETTINGS = (
    ("transfer.fsckObjects", "true"),
    ("push.gpgSign", "false"),
    ("push.followTags", "false"),
    ("push.recurseSubmodules", "no"),
    ("fetch.recurseSubmodules", "false"),
    ("core.alternateRefsCommand", "true"),  # a program to run; this one says nothing
)
_RECEIVE = (
    "git -c core.hooksPath=/dev/null -c core.alternateRefsCommand=true -c core.fsmonitor=false "
    "-c receive.autogc=false receive-pack"
)
_PROTOCOL_SETTING = {"GIT_ALLOW_PROTOCOL": _PROTOCOLS}
_SSH = "ssh -o BatchMode=yes -o ConnectTimeout=10"
_MOVED_WORDS = ("[rejected]", "[remote rejected] main -> main (failed to update ref)", "cannot lock ref",
                "fetch first", "incorrect old value", "stale info", "reference already exists")  # fmt: skip
_LOST_HERE = re.compile(r"unable to read [0-9a-f]{40}|object( file)? \.git/|pack-objects died")
_TOTAL = re.compile(rb"\(\d+/(\d{1,9})\)")
_NOT_LET_IN = ("authentication failed", "permission denied (", "could not read username", "terminal prompts disabled",
               "access denied", "returned error: 403", "returned error: 401")  # fmt: skip


class Offline(Refusal):
    """The shared repository cannot be reached just now."""


def resolve_address(text: str, folder: str) -> str:
    """The address as git takes it; a path is made whole from ``folder``.

    Raises Refusal for one that would run a program or that git would read as an option.
    """
    bare = text.strip()
    scheme = bare.partition("://")[0] if "://" in bare else ""
    is_path = os.path.exists(os.path.join(folder, bare))  # and that may hold a line end
    if not bare or bare.startswith("-") or (any(ord(char) < 32 for char in bare) and not is_path):
        raise Refusal(f"'{text}' is not the address of a shared repository", do="give a path or a URL")
    if "::" in bare.partition("/")[0] or (scheme and scheme not in _PROTOCOLS.split(":")):
        raise Refusal(f"'{text}' names a program, which fitlog never runs", do="give a path, or an https or ssh URL")
    if scheme or (":" in bare.partition("/")[0] and not is_path):
        return bare
    return os.path.abspath(os.path.join(folder, os.path.expanduser(bare)))


def check_bare(address: str) -> None:
    """Refuse a place on this machine that is a workspace itself.

    What is sent there would not reach its files.

    Raises Refusal.
    """
    path = local_path(address)
    if path and os.path.lexists(os.path.join(path, ".git")):
        raise _not_bare(address)


def is_bundle(path: str) -> bool:
    """Whether a file is a git bundle, by its first line."""
    try:
        with open(open_plain(path), "rb") as file:
            return file.read(16).startswith((b"# v2 git bundle", b"# v3 git bundle"))
    except OSError:
        return False


def local_path(address: str) -> str:
    """The path of a shared repository on this machine, or an empty string."""
    if os.path.isabs(address):
        return address
    return urlsplit(address).path if address.startswith("file://") else ""


def known_remote(git: Git) -> str:
    """The address this workspace syncs with, or an empty string."""
    return git.once("config", "--local", "--no-includes", "--get", f"remote.{NAME}.url")[1].rstrip("\n")


def remember(git: Git, address: str) -> None:
    """Keep the address in the workspace's own git configuration.

    Plain git finds it there too.
    """
    if known_remote(git) == address:
        return
    for key, value in (
        (f"remote.{NAME}.url", address),
        (f"remote.{NAME}.fetch", f"+refs/heads/*:refs/remotes/{NAME}/*"),
        ("branch.main.remote", NAME),
        ("branch.main.merge", BRANCH),
    ):
        git.run("config", "--local", "--replace-all", key, value)


def last_shared(git: Git) -> str:
    """The last commit that is known to be shared, or an empty string."""
    return git.once("rev-parse", "--verify", "--quiet", TRACKING)[1].strip()


def take_back(git: Git, commit: str) -> None:
    """Record this as the last shared commit, whatever was fetched meanwhile."""
    git.once("update-ref", TRACKING, commit) if commit else git.once("update-ref", "-d", TRACKING)


def make_in_empty(address: str) -> None:
    """Make an empty folder that a person named the shared repository; leave all else."""
    path = local_path(address)
    if path and os.path.isdir(path) and not os.listdir(path):
        init_shared(path)


def fetch(git: Git, address: str, everything: bool = False) -> str:
    """Get what is shared; returns its last commit, empty where nothing is shared.

    ``everything`` gets even what git believes it has: for a history that has lost parts.

    Raises Offline where it cannot be reached, Refusal where it is not for us.
    """
    status, text = _get(git, address, everything)
    if status == 0:
        return git.run("rev-parse", "--verify", "--quiet", TRACKING).strip()
    if in_the_way(text):
        raise Refusal("another git command has been running in this workspace for a while", where=git.root,
                      do="let it finish, then try again")  # fmt: skip
    if "couldn't find remote ref" not in text.lower():
        raise _trouble(address, text)
    status, text = _network(git, address, "ls-remote", "--exit-code", "--heads", "--", address)
    if status == 0:
        raise Refusal("this repository has no branch main, so it is no shared workspace", where=address,
                      do=NEW_ONE)  # fmt: skip
    git.once("update-ref", "-d", TRACKING)
    return ""


def _get(git: Git, address: str, everything: bool) -> tuple[int, str]:
    """Exit status and words of git's fetch.

    A lock on our own reference, as a killed git leaves one, is let go.
    """
    end = time.monotonic() + LOCK_PATIENCE_S
    while True:
        status, text = _network(
            git, address, "fetch", "--progress", "--no-tags", "--no-recurse-submodules", "--no-write-fetch-head",
            "--refmap=", *(["--refetch"] if everything else []), "--upload-pack=git-upload-pack",
            "--", address, f"+{BRANCH}:{TRACKING}",
        )  # fmt: skip
        if status == 0 or not in_the_way(text) or time.monotonic() > end:
            return status, text
        git.clear_stale_locks(wait_s=1.0)
        time.sleep(0.2)


def push(git: Git, address: str, commit: str) -> bool:
    """Share a commit; False where the shared repository has moved on meanwhile.

    Raises Offline or Refusal as ``fetch`` does.
    """
    receive = _RECEIVE if local_path(address) else "git-receive-pack"
    status, text = _network(
        git, address, "push", "--progress", "--no-verify", "--no-follow-tags", f"--receive-pack={receive}",
        "--", address, f"{commit}:{BRANCH}",
    )  # fmt: skip
    if status == 0:
        if not last_shared(git):
            _point_head(git, local_path(address))
        git.run("update-ref", "-m", "fitlog: sync", TRACKING, commit)
        return True
    if "denyCurrentBranch" in text or "is currently checked out" in text:
        raise _not_bare(address)
    if any(words in text for words in _MOVED_WORDS):
        return False
    raise _trouble(address, text, is_push=True)


def _point_head(git: Git, path: str) -> None:
    """Have plain ``git clone`` of a new shared repository check out main.

    Whatever its git calls a first branch.
    """
    if path and git.once("--git-dir", path, "rev-parse", "--verify", "--quiet", "HEAD")[0]:
        git.once("--git-dir", path, "symbolic-ref", "HEAD", BRANCH)


def _not_bare(address: str) -> Refusal:
    return Refusal("this is somebody's own workspace, not a shared repository", where=address,
                   do=NEW_ONE)  # fmt: skip


def _trouble(address: str, output: str, is_push: bool = False) -> Refusal:
    """What went wrong at the other end, in words; in ``is_push`` it may be this one."""
    low = output.lower()
    if is_push and any(_LOST_HERE.search(line) for line in low.splitlines() if not line.startswith("remote:")):
        return Refusal("the history of this workspace is damaged, so it cannot be sent",
                       do="mend what can be mended with: fitlog check --repair")  # fmt: skip
    return _describe_refusal(address, low) or _no_repository(address, output) or _no_answer(address, output)


def _describe_refusal(address: str, low: str) -> Refusal | None:
    """What git says that it may not do there."""
    if "dubious ownership" in low:
        return Refusal("the shared repository belongs to another user, so git leaves it alone", where=address,
                       do="trust it with: git config --global --add safe.directory "
                       + local_path(address))  # fmt: skip
    if "not allowed" in low and "transport" in low:
        return Refusal(
            "git does not take this kind of address", where=address, do="give a path, or an https or ssh URL"
        )
    if any(words in low for words in _NOT_LET_IN):
        return Refusal("the shared repository refused access", where=address,
                       do="see that this works in a shell: git ls-remote ADDRESS")  # fmt: skip
    if "no space left" in low or "unable to write" in low or "insufficient permission" in low:
        return Refusal(
            "the shared repository cannot be written", where=address, do="free space there, or get the right to write"
        )
    return None


def _no_repository(address: str, output: str) -> Refusal | None:
    """What lies at a path in place of a sound repository.

    Returns None where nothing does, or where it is no path.
    """
    path = local_path(address)
    if is_bundle(path):
        return Refusal(f"this backup is damaged: {_last(output)}", where=address, do="name another one")
    if os.path.isfile(path):
        return Refusal("this is a file, not a shared repository", where=address,
                       do=NEW_ONE)  # fmt: skip
    if not path or not os.path.isdir(path):
        return None
    if os.path.exists(os.path.join(path, "HEAD")) or os.path.exists(os.path.join(path, ".git")):
        return Refusal(f"the shared repository is damaged: {_last(output)}", where=address,
                       do="run git fsck there")  # fmt: skip
    return Refusal("there is no shared repository in this folder", where=address,
                   do=NEW_ONE)  # fmt: skip


def _no_answer(address: str, output: str) -> Refusal:
    """Why nothing usable came: it is damaged, or it cannot be reached."""
    if "fsck" in output.lower() or "bad object" in output.lower():
        return Refusal(f"the shared repository sends what git does not trust: {_last(output)}", where=address,
                       do="run git fsck there")  # fmt: skip
    why = "the folder is not there" if local_path(address) else _last(output)
    return Offline(f"the shared repository cannot be reached ({why})", where=address)


def _last(output: str) -> str:
    lines = [line.strip() for line in output.replace("\r", "\n").splitlines() if line.strip()]
    worst = (
        [line for line in lines if line.startswith(("fatal:", "error:", "ssh:"))] or lines or ["it gave no reason"]
    )
    return worst[0].removeprefix("fatal: ").removeprefix("error: ")[:200]


def steering_keys(git: Git, address: str) -> list[str]:
    """The keys of the workspace's own git configuration that say where changes go."""
    words = git.run("config", "--list", "--show-scope", "--name-only", "-z").split("\0")
    found = []
    for scope, key in zip(words[::2], words[1::2], strict=False):
        named = key.startswith(f"remote.{address}.") and key.endswith((".url", ".pushurl", ".proxy", ".vcs"))
        if scope in ("local", "worktree") and (named or key.startswith(("url.", "http."))):
            found.append(key)
    return found


def _check_unsteered(git: Git, address: str) -> None:
    """Refuse a git configuration that says where changes go.

    It may have come from a stranger.

    Raises Refusal where it would.
    """
    if key := next(iter(steering_keys(git, address)), ""):
        by_git = f"git config --unset-all '{key}'"  # a name of this very address is known to this call alone
        remover = by_git if key.startswith("remote.") else "fitlog check --repair"
        raise Refusal(
            f"this workspace has a git configuration of its own that would steer where its changes go: {key}",
            where=os.path.join(git.root, ".git", "config"),
            do=f"remove it with: {remover}; if it is yours, set it again with git config --global",
        )
    for folder in ("remotes", "branches"):  # an older git's way of saying the same
        kept = os.path.join(git.root, ".git", folder)
        if os.path.isdir(kept) and os.listdir(kept):
            raise Refusal("an old list of shared repositories would steer where changes go", where=kept,
                          do="remove its files")  # fmt: skip


def _network(git: Git, address: str, *args: str) -> tuple[int, str]:
    """Exit status and error text of a git that talks to another.

    One that falls silent is ended.

    Raises Offline for the silent one.
    """
    _check_unsteered(git, address)
    here = bool(local_path(address))
    settings = _SETTINGS if here else (*_SETTINGS, *_own_credentials(git))
    process = subprocess.Popen(
        ["git", *args],
        cwd=git.root,
        env={
            **os.environ,
            **environment(git.root, settings),
            **({} if here else _programs(git)),
            **_PROTOCOL_SETTING,
        },
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        **own_group(),
    )
    text = bytearray()
    assert process.stderr
    try:
        with process.stderr as pipe:
            for chunk in chunks(pipe, lambda: _patience(here, text)):
                text.extend(chunk)
                del text[:-20_000]
            return process.wait(), text.decode("utf-8", "replace")
    except TimeoutError:
        end_group(process)
        last = text.decode("utf-8", "replace").replace("\r", "\n").strip().rpartition("\n")[2].strip()
        after = f"; the last it said was: {last[:80]}" if last else ""
        raise Offline(f"no answer came for {_patience(here, text):.0f} seconds{after}", where=address) from None
    except BaseException:
        end_group(process)
        raise


def _patience(is_local: bool, output: bytes | bytearray) -> float:
    """How long git may be silent, by the objects its progress told, ``(12/3400)``."""
    most = max(map(int, _TOTAL.findall(output)), default=0)
    return (SILENCE_HERE_S if is_local else SILENCE_S) + min(most, 10**7) / _OBJECTS_A_SECOND


def _programs(git: Git) -> dict[str, str]:
    """The programs that reach another machine: a person's own or the plain ones."""
    own = git.once("config", "--global", "--get", "core.sshCommand")[1].strip()
    return {
        "GIT_SSH_COMMAND": os.environ.get("GIT_SSH_COMMAND") or own or _SSH,
        "GIT_PROXY_COMMAND": "",
        "GIT_ASKPASS": os.environ.get("GIT_ASKPASS", ""),
    }


def _own_credentials(git: Git) -> list[tuple[str, str]]:
    """A person's own credential helpers.

    An empty first one makes git forget those that the workspace names.
    """
    out = [("credential.helper", "")]
    for scope in ("--system", "--global"):
        listed = git.once("config", scope, "--null", "--get-regexp", r"^credential\.")[1]
        for pair in listed.split("\0")[:-1]:
            key, _, value = pair.partition("\n")
            out.append((key, value))
    return out
