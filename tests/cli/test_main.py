"""Finding the command, exit statuses, and how errors are said."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from fitlog import __version__
from fitlog.cli import main as main_module
from fitlog.cli.main import main
from fitlog.saving.desk import Desk
from tests.cli.conftest import Run

HERE = Path(__file__).parents[2]


def test_help_of_one_command_and_of_a_group(anywhere: Run) -> None:
    assert "PLAYER" in anywhere("help", "bag").out
    assert "fitlog calc lie" in anywhere("calc", "--help").out
    ran = anywhere("calc")
    assert ran.status == 2
    assert ran.err.startswith("error: fitlog calc what?; write one of swing-weight, match,")
    assert anywhere("calc", "weather").status == 2


def test_version(anywhere: Run) -> None:
    assert anywhere("--version").out == f"fitlog {__version__}\n"


def test_an_unknown_command_is_wrong_usage_and_names_the_nearest(anywhere: Run) -> None:
    ran = anywhere("verdit")
    assert (ran.status, ran.out) == (2, "")
    assert ran.err == "error: there is no command 'verdit'; did you mean verdict or edits?\n"


def test_workspace_before_or_after_the_command_or_from_the_environment(
    desk: Desk, anywhere: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    message = anywhere("-w", desk.root, "players").out
    assert "mo" in message
    for argv in (
        ["players", "-w", desk.root],
        ["players", "--workspace", desk.root],
        [f"--workspace={desk.root}", "players"],
        [f"-w{desk.root}", "players"],
    ):
        assert anywhere(*argv).out == message
    monkeypatch.setenv("FITLOG_WORKSPACE", desk.root)
    assert anywhere("players").out == message
    monkeypatch.delenv("FITLOG_WORKSPACE")
    monkeypatch.chdir(os.path.join(desk.root, "players", "mo"))
    assert anywhere("players").out == message
    assert anywhere("-w").status == 2


def test_workspace_inside_a_command_of_two_words(desk: Desk, anywhere: Run) -> None:
    ran = anywhere("player", "-w", desk.root, "add", "jo", "--name", "Jo Hale", "--hand", "right")
    assert (ran.status, ran.err) == (0, "")
    assert desk.workspace.players() == ["jo", "mo"]
    assert anywhere("player", "-w", desk.root).status == 2


def test_no_workspace_says_what_to_do(anywhere: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.chdir(tmp_path)
    for argv in ([], ["bag", "mo"]):
        ran = anywhere(*argv)
        assert ran.status == 2
        assert ran.err.startswith("error: there is no fitlog workspace here or above; make one with: fitlog init DIR")
    ran = anywhere("-w", str(tmp_path), "bag", "mo")
    assert ran.status == 2
    assert "is not a fitlog workspace" in ran.err


def test_without_a_terminal_the_app_does_not_open(fitlog: Run) -> None:
    ran = fitlog()
    assert ran.status == 2
    assert "needs a terminal" in ran.err


def test_every_fault_of_a_broken_file_is_a_line_of_its_own(desk: Desk, fitlog: Run) -> None:
    bag = Path(desk.root, "players/mo/bag.toml")
    text = (
        bag.read_text().replace("length_in = 45.25", 'length_in = "long"').replace("loft_deg = 33", "loft_deg = 330")
    )
    bag.write_text(text)
    ran = fitlog("bag", "mo")
    assert (ran.status, ran.out) == (1, "")
    line = text.splitlines().index('length_in = "long"') + 1
    first, second = ran.err.splitlines()
    assert first == (
        f"error: players/mo/bag.toml:{line}: club.length_in: 'long' is not a number; write inches such as 45.25"
    )
    assert second.startswith("error: players/mo/bag.toml:")
    assert "club.loft_deg: 330 is outside -15 to 80 degrees" in second
    assert fitlog("players").status == 0
    assert bag.read_text() == text


def test_a_file_cannot_forge_a_line_of_errors(desk: Desk, fitlog: Run) -> None:
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_text(bag.read_text().replace("length_in = 45.25", 'length_in = "x\\nerror: all is lost\\u001b[2J"'))
    ran = fitlog("bag", "mo")
    assert ran.err.count("\n") == 1
    assert "\\nerror: all is lost\\x1b[2J" in ran.err


def test_ctrl_c_ends_quietly(fitlog: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("fitlog.views.board.players.list_players", interrupted)
    ran = fitlog("players")
    assert (ran.status, ran.out, ran.err) == (130, "", "")


def test_the_app_opens_where_there_is_a_terminal(desk: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    opened: list[str] = []

    def open_app(root: str) -> int:
        opened.append(root)
        return 0

    monkeypatch.setattr(main_module, "open_app", open_app)
    for stream in (sys.stdin, sys.stdout):
        monkeypatch.setattr(stream, "isatty", lambda: True, raising=False)
    assert main(["-w", desk.root]) == 0
    assert opened == [desk.root]


def test_a_reader_that_goes_away_ends_it_quietly(desk: Desk) -> None:
    code = "from fitlog.cli.main import run; run()"
    argv = [sys.executable, "-c", code, "-w", desk.root, "history", "mo", "--raw"]
    with subprocess.Popen(argv, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=HERE) as process:
        assert process.stdout is not None
        process.stdout.close()
        _, err = process.communicate(timeout=60)
    assert err == b""


def test_python_m_fitlog_is_fitlog(desk: Desk) -> None:
    argv = [sys.executable, "-m", "fitlog", "players", "-w", desk.root]
    ran = subprocess.run(argv, capture_output=True, text=True, cwd=HERE, check=False)
    assert (ran.returncode, ran.stderr) == (0, "")
    assert "Mo Ferrant" in ran.stdout


def test_a_closed_output_is_no_crash(desk: Desk) -> None:
    argv = f'"{sys.executable}" -m fitlog players -w "{desk.root}" >&-'
    ran = subprocess.run(argv, shell=True, capture_output=True, text=True, cwd=HERE, check=False)
    assert (ran.returncode, ran.stderr) == (0, "")


HEAVY = ("textual", "git", "tomlkit", "numpy", "scipy", "pathlib", "dataclasses", "inspect", "subprocess", "rich")


@pytest.mark.parametrize("argv", [["bag", "mo", "--json"], ["bag", "mo"], ["--help"], ["bag", "--help"]])
def test_looking_at_a_bag_loads_nothing_heavy(desk: Desk, argv: list[str]) -> None:
    code = (
        "import sys; from fitlog.cli.main import main; before = set(sys.modules);"
        f"status = main(['-w', {desk.root!r}, *{argv!r}]); print(*sys.modules, file=sys.stderr); sys.exit(status)"
    )
    # -S: what the environment's own start-up hooks load is not ours
    argv = [sys.executable, "-S", "-c", code]
    ran = subprocess.run(argv, capture_output=True, text=True, cwd=HERE, check=False)
    assert ran.returncode == 0, ran.stderr
    loaded = set(ran.stderr.split())
    assert "fitlog.cli.main" in loaded
    assert not loaded & set(HEAVY)
    if argv[-1] == "--json":
        assert not loaded & {"argparse", "json", "shutil", "locale"}
