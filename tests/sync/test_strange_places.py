"""Addresses, links and repositories that are not trusted."""

import shutil
from pathlib import Path

import pytest

from fitlog.history.plumbing import remote
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from tests.sync.vans import git, set_


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("ext::sh -c 'touch owned'", "names a program"),
        ("fd::17", "names a program"),
        ("gopher://example.org/x", "names a program"),
        ("--upload-pack=touch owned", "is not the address"),
        ("", "is not shared yet"),
    ],
)
def test_an_address_that_would_run_something_is_refused(desk: Desk, address: str, words: str) -> None:
    with pytest.raises((Refusal, UsageError), match=words):
        exchange.sync(desk, address)
    assert remote.known_remote(desk.history.git) == ""


def test_nothing_that_a_strangers_workspace_names_is_run(desk: Desk, bare_repository: Path, tmp_path: Path) -> None:
    trap = tmp_path / "trap"
    trap.write_text(f'#!/bin/sh\necho "$0 $@" >> {tmp_path}/owned\n')
    trap.chmod(0o755)
    for folder in (Path(desk.root, ".git"), bare_repository):
        (folder / "hooks").mkdir(exist_ok=True)
        for hook in ("pre-push", "post-receive", "update", "pre-receive", "post-update", "reference-transaction",
                     "post-merge", "pre-commit", "post-commit", "post-index-change", "proc-receive"):  # fmt: skip
            shutil.copy(trap, folder / "hooks" / hook)
    for key in (
        "remote.origin.uploadpack", "remote.origin.receivepack", "core.sshCommand", "core.gitProxy", "core.fsmonitor",
        "credential.helper", "core.askPass", "core.alternateRefsCommand", "uploadpack.packObjectsHook",
        "filter.x.clean", "filter.x.smudge", "merge.fitlog.driver", "core.editor", "core.pager",
    ):  # fmt: skip
        for place in (desk.root, str(bare_repository)):
            git(place, "config", key, str(trap))
    git(desk.root, "config", f"remote.{bare_repository}.uploadpack", str(trap))
    Path(desk.root, ".git/objects/info").mkdir(exist_ok=True)
    Path(desk.root, ".git/objects/info/alternates").write_text(f"{bare_repository}/objects\n")
    Path(desk.root, ".gitattributes").write_text("* filter=x merge=fitlog\n")
    exchange.sync(desk, str(bare_repository))
    set_(desk, "3w", "length_in=42.5")
    assert exchange.sync(desk).unsent == 0
    assert exchange.sync(desk, "http://127.0.0.1:9/none").offline
    assert exchange.sync(desk, "ssh://127.0.0.1:9/none").offline
    assert not (tmp_path / "owned").exists()


def test_a_strange_repository_is_refused_and_nothing_changes(desk: Desk, tmp_path: Path) -> None:
    strange = tmp_path / "strange"
    git(tmp_path, "init", "-q", "-b", "main", "code")
    (tmp_path / "code" / "code.c").write_text("int main;")
    git(tmp_path / "code", "add", ".")
    git(tmp_path / "code", "-c", "user.name=A", "-c", "user.email=a@example.org", "commit", "-qm", "code")
    git(tmp_path, "clone", "-q", "--bare", "code", str(strange))
    head = desk.history.head()
    with pytest.raises(Refusal, match="share no history"):
        exchange.sync(desk, str(strange))
    git(strange, "branch", "-m", "trunk")
    with pytest.raises(Refusal, match="has no branch main"):
        exchange.sync(desk, str(strange))
    with pytest.raises(Refusal, match="there is no shared repository in this folder"):
        exchange.sync(desk, str(tmp_path))
    assert desk.history.head() == head


def test_a_link_from_outside_is_not_taken(vans: tuple[Desk, Desk]) -> None:
    one, two = vans
    Path(two.root, "players/mo/notes.toml").symlink_to("/etc/passwd")
    git(two.root, "add", "-A")
    git(two.root, "-c", "user.name=A", "-c", "user.email=a@example.org", "commit", "-qm", "a link")
    exchange.sync(two)
    with pytest.raises(Refusal, match="holds a link here"):
        exchange.sync(one)
    assert not Path(one.root, "players/mo/notes.toml").exists()
