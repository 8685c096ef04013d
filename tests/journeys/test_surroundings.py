"""What surrounds the program: git's settings and variables, locale, home, odd numbers, a full standard output."""

import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

from fitlog.history.plumbing import environment
from fitlog.saving.desk import Desk

NAME = "Zoë Łukasz"
Odd = Mapping[str, str | None]


def fitlog(desk: Desk, *args: str, stdout: str = "", odd: Odd = {}) -> "subprocess.CompletedProcess[str]":  # noqa: B006
    """Run a command as a person would, with these variables set (None: not set)."""
    surroundings = {name: value for name, value in {**os.environ, **odd}.items() if value is not None}
    command = [sys.executable, "-m", "fitlog", "-w", desk.root, *args]
    out = os.open(stdout, os.O_WRONLY) if stdout else subprocess.PIPE
    try:
        return subprocess.run(
            command, stdout=out, stderr=subprocess.PIPE, encoding="utf-8", env=surroundings, check=False
        )
    finally:
        if stdout:
            os.close(out)


def add(desk: Desk, player: str, odd: Odd = {}) -> "subprocess.CompletedProcess[str]":  # noqa: B006
    return fitlog(desk, "player", "add", player, "--name", NAME, "--hand", "left", odd=odd)


def added_in_one_commit(desk: Desk, done: "subprocess.CompletedProcess[str]") -> None:
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith(f"New player: {NAME}, left-handed")
    log = subprocess.run(
        ["git", "log", "-1", "--format=%s"], cwd=desk.root, capture_output=True, encoding="utf-8", check=True
    )
    assert log.stdout == f"New player: {NAME}, left-handed\n"


ODD: Odd = {
    "GIT_TRACE": "1", "GIT_TRACE2": "1", "GIT_TRACE_SETUP": "2", "GIT_TRACE_PACKET": "1", "GIT_CURL_VERBOSE": "1",
    "GIT_DIR": "/nowhere", "GIT_WORK_TREE": "/nowhere", "GIT_INDEX_FILE": "/nowhere", "GIT_QUARANTINE_PATH": "/x",
    "GIT_OBJECT_DIRECTORY": "/nowhere", "GIT_NAMESPACE": "else", "GIT_DEFAULT_HASH": "sha256",
    "GIT_ATTR_SOURCE": "nothing", "GIT_INDEX_VERSION": "4", "GIT_ICASE_PATHSPECS": "1", "GIT_NOGLOB_PATHSPECS": "1",
    "GIT_CONFIG": "/nowhere", "GIT_CONFIG_COUNT": "x", "GIT_CONFIG_PARAMETERS": "'core.bare=true'",
    "GIT_AUTHOR_DATE": "yesterday-ish", "GIT_COMMITTER_DATE": "never", "GIT_OPTIONAL_LOCKS": "maybe",
    "GIT_FLUSH": "no", "GIT_REDIRECT_STDOUT": "/dev/null", "GIT_ALLOW_PROTOCOL": "none", "GIT_TEST_FSYNC": "0",
    "GIT_PYTHON_TRACE": "full", "GIT_PYTHON_GIT_EXECUTABLE": "/nowhere/git", "GIT_PYTHON_REFRESH": "raise",
}  # fmt: skip


def test_no_variable_of_git_changes_what_is_saved(desk: Desk) -> None:
    added_in_one_commit(desk, add(desk, "zo", odd=ODD))
    assert fitlog(desk, "history", "zo", odd=ODD).stdout == fitlog(desk, "history", "zo").stdout


def test_a_persons_own_way_to_other_machines_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GIT_SSH_COMMAND", "ssh -i mine")
    monkeypatch.setenv("GIT_SOMETHING_NEW", "1")
    environment.forget_foreign()
    assert os.environ["GIT_SSH_COMMAND"] == "ssh -i mine"
    assert "GIT_SOMETHING_NEW" not in os.environ


@pytest.mark.parametrize("locale", ["POSIX", "C", "xx_YY.broken"])
def test_a_locale_that_knows_only_ascii(desk: Desk, locale: str) -> None:
    odd: Odd = {
        "LC_ALL": locale,
        "LANG": locale,
        "PYTHONUTF8": "0",
        "PYTHONCOERCECLOCALE": "0",
        "PYTHONIOENCODING": None,
    }
    added_in_one_commit(desk, add(desk, "zo", odd))
    assert NAME in fitlog(desk, "players", odd=odd).stdout


def test_no_home(desk: Desk) -> None:
    added_in_one_commit(desk, add(desk, "zo", {"HOME": None, "XDG_CONFIG_HOME": None}))


@pytest.mark.parametrize(
    ("settings", "text"),
    [
        ("[user\nname = x\n", r"/.gitconfig, line 1: your own git settings cannot be read; mend that line"),
        ("[core]\nabbrev = nope\n", "bad numeric config value 'nope' for 'core.abbrev'"),
    ],
)
def test_broken_settings_of_a_person_are_named_and_nothing_is_saved(desk: Desk, settings: str, text: str) -> None:
    assert fitlog(desk, "history", "mo").returncode == 0  # this git was seen to be new enough
    Path(os.environ["HOME"], ".gitconfig").write_text(settings)
    head = Path(desk.root, ".git/refs/heads/main").read_text()
    done = add(desk, "zo")
    assert done.returncode == 1
    assert text in done.stderr
    assert done.stderr.count("\n") == 1
    assert not Path(desk.root, "players/zo").exists()
    Path(os.environ["HOME"], ".gitconfig").unlink()
    assert Path(desk.root, ".git/refs/heads/main").read_text() == head
    added_in_one_commit(desk, add(desk, "zo"))


@pytest.mark.parametrize("number", ["9" * 20, "-" + "9" * 20, "9" * 5000, "1e9"], ids=len)
@pytest.mark.parametrize("args", [("find", "--limit"), ("history", "mo", "--limit"), ("history", "mo", "--skip")])
def test_numbers_out_of_range(desk: Desk, args: tuple[str, ...], number: str) -> None:
    done = fitlog(desk, *args, number)
    assert done.returncode == 2
    assert "is not a whole number up to 1,000,000,000" in done.stderr
    assert done.stderr.count("\n") == 1


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="needs a device that is full")
def test_an_action_that_was_saved_says_so_where_its_output_is_lost(desk: Desk) -> None:
    done = fitlog(desk, "player", "add", "zo", "--name", NAME, "--hand", "left", stdout="/dev/full")
    assert done.returncode == 1
    assert done.stderr == (
        "error: this was done, and saved if it saves, but standard output cannot be written: "
        "No space left on device; free space there, or send it elsewhere\n"
    )
    assert Path(desk.root, "players/zo/player.toml").exists()
    again = fitlog(desk, "player", "add", "zo", "--name", NAME, "--hand", "left", stdout="/dev/full")
    assert "this was done" not in again.stderr
    assert "crash" not in fitlog(desk, "players", "--json", stdout="/dev/full").stderr
