"""What git refuses, in words for a person."""

import pytest

from fitlog.history.plumbing.git_errors import NEWER_GIT, OLDEST_GIT, explain_failure, too_old

NEW = (2, 47, 1)


@pytest.mark.parametrize(
    ("output", "what", "do"),
    [
        ("fatal: detected dubious ownership in repository", "belongs to another user", "safe.directory /van"),
        ("error: file write error: No space left on device", "the disk is full", "make room"),
        ("error: insufficient PERMISSION DENIED", "permission denied", "who owns"),
        ("fatal: bad config line 3 in file .git/config", "settings for this workspace are damaged", "check --repair"),
        ("error: object file is empty", "the history is damaged", "check --repair"),
        ("fatal: index file corrupt", "git's index is damaged", "check --repair"),
    ],
)
def test_a_failure_that_is_known_has_its_way_out(output: str, what: str, do: str) -> None:
    found = explain_failure("/van", ("commit",), output, NEW)
    assert what in found.what
    assert do in found.do
    assert found.output == output


def test_a_persons_own_settings_are_named_with_their_line() -> None:
    found = explain_failure("/van", ("log",), "fatal: bad config line 7 in file /home/mo/.gitconfig", NEW)
    assert found.where == "/home/mo/.gitconfig, line 7"
    assert "your own git settings" in found.what


def test_what_is_not_known_is_git_s_own_first_line() -> None:
    text = "warning: odd\nfatal: it is a Tuesday\nfatal: more"
    assert explain_failure("/van", ("gc", "--auto"), text, NEW).what == "git gc failed: it is a Tuesday"
    assert "it gave no reason" in explain_failure("/van", ("gc",), "", NEW).what


def test_a_git_that_is_too_old_is_blamed_only_where_nothing_else_is() -> None:
    old = explain_failure("/van", ("gc",), "error: unknown option", (2, 30, 2))
    assert (old.what, old.do) == ("git 2.30.2 is too old", NEWER_GIT)
    assert "disk is full" in explain_failure("/van", ("gc",), "No space left", (2, 30, 2)).what


def test_only_an_older_git_is_too_old() -> None:
    assert [too_old(version) for version in ((), OLDEST_GIT, (3, 0))] == [""] * 3
    assert [too_old(version) for version in ((2, 35, 9), (1, 9))] == ["2.35.9", "1.9"]
