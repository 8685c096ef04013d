"""Completion: what a shell is offered, asked as bash asks, and in a real bash."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pexpect
import pytest

from fitlog.cli import parsing
from fitlog.cli.completion import completers
from fitlog.cli.completion.shell import whole_parser
from fitlog.records.models.bag import choose_club
from fitlog.records.schema.dotted_keys import flatten
from fitlog.saving.desk import Desk
from tests.cli.conftest import Run

HERE = Path(__file__).parents[4]


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_each_shell_gets_its_lines(shell: str, anywhere: Run) -> None:
    ran = anywhere("completion", shell)
    assert (ran.status, ran.err) == (0, "")
    assert "fitlog" in ran.out
    assert anywhere("completion", shell, "--json").json["shell"] == shell


def test_another_shell_is_wrong_usage(anywhere: Run) -> None:
    assert anywhere("completion", "cmd").status == 2


def offered(line: str, folder: str, tmp_path: Path) -> list[str]:
    """What is offered at the end of a line, asked through argcomplete's own protocol."""
    answer = tmp_path / "answer"
    environment = {
        **os.environ,
        "_ARGCOMPLETE": "1",
        "_ARGCOMPLETE_IFS": "\n",
        "_ARGCOMPLETE_STDOUT_FILENAME": str(answer),
        "COMP_LINE": line,
        "COMP_POINT": str(len(line)),
        "FITLOG_WORKSPACE": folder,
    }
    code = "import sys; sys.argv[0] = 'fitlog'; from fitlog.cli.main import run; run()"
    subprocess.run([sys.executable, "-c", code], env=environment, cwd=HERE, check=True, capture_output=True)
    return [each.strip() for each in answer.read_text().split("\n") if each.strip()]


def test_ids_slots_keys_and_tests_are_offered(desk: Desk, ref: str, tmp_path: Path) -> None:
    def ask(line: str) -> list[str]:
        return offered("fitlog " + line, desk.root, tmp_path)

    assert {"bag", "bag-set", "ball"} <= set(ask("ba"))
    assert ask("undo ") == ask("choices ") == ["mo"]
    assert ask("calc sw") == ["swing-weight"]
    assert ask("bag m") == ["mo"]
    assert ask("why mo dr") == ["driver"]
    assert ask("why mo driver shaft.ti") == ["shaft.tip", "shaft.tip_trim_in"]
    assert ask("bag-set mo driver --set length") == ["length_in="]
    assert ask("test mo 3w --session la") == ["last"]
    assert ask("test mo 3w --session 20") == [ref.partition("#")[0]]
    assert ask("verdict mo 20") == [ref]
    assert ask("restore mo --to l") == ["last-proven"]
    assert "keep" in ask(f"verdict mo {ref} k")
    assert ask("bag zed") == []
    assert ask(f"verdict mo {ref} ") == ["keep", "reject", "retest"]  # what is useful, and no option before it
    assert ask("why mo ")[0] == "driver"
    assert "--json" in ask("bag --")


def test_what_a_command_needs_is_offered_where_no_other_word_fits(desk: Desk, tmp_path: Path) -> None:
    def ask(line: str) -> list[str]:
        return offered("fitlog " + line, desk.root, tmp_path)

    assert ask("bag-set mo 3w ") == ["--reason", "--set"]
    club = choose_club(desk.workspace.bag("mo"), "3w", "mo").raw
    own = [f"{key}=" for key, _ in flatten(club) if key != "slot"]
    assert ask("bag-set mo 3w --set ")[: len(own)] == own
    assert ask("season mo close ") == [desk.workspace.bag("mo").season]
    assert ask("rename-slot mo 3w ") == ["--reason"]
    assert "3w" not in ask("restore mo 3w ")


def test_a_broken_workspace_offers_nothing_and_says_nothing(desk: Desk, tmp_path: Path) -> None:
    Path(desk.root, "players/mo/bag.toml").write_text("[[club]\n")
    assert offered("fitlog why mo dr", desk.root, tmp_path) == []
    assert offered("fitlog bag m", str(tmp_path), tmp_path) == []


@pytest.mark.skipif(not shutil.which("bash"), reason="there is no bash here")
def test_the_tab_key_in_a_real_bash(desk: Desk, tmp_path: Path) -> None:
    program = tmp_path / "bin" / "fitlog"
    program.parent.mkdir()
    program.write_text(f"#!{sys.executable}\nfrom fitlog.cli.main import run\nrun()\n")
    program.chmod(0o755)
    environment = {
        **os.environ,
        "PATH": f"{program.parent}:{os.environ['PATH']}",
        "PYTHONPATH": str(HERE),
        "FITLOG_WORKSPACE": desk.root,
        "PS1": "ready> ",
        "TERM": "dumb",
        "INPUTRC": os.devnull,
    }
    bash = pexpect.spawn(
        "bash", ["--norc", "--noprofile", "-i"], env=environment, encoding="utf-8", timeout=30, dimensions=(24, 200)
    )
    try:
        bash.sendline(
            'PS1="ready> "; bind "set enable-bracketed-paste off"; eval "$(fitlog completion bash)"; echo loa""ded'
        )
        bash.expect("loaded\r\n")
        bash.send("fitlog bag m\t--json | head -c 20\n")
        bash.expect_exact('{"player": "mo", "at')
        bash.send("fitlog why mo dri\tlength\t\n")
        bash.expect_exact("driver length: 45.25 in")
    finally:
        bash.close(force=True)


def test_every_argument_names_a_completer_that_is_there(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: set[str] = set()
    monkeypatch.setattr(parsing, "from_shell", lambda action, what: asked.add(what))
    whole_parser()
    assert "restore_points" in asked
    assert {each for each in asked if not hasattr(completers, each)} == set()
