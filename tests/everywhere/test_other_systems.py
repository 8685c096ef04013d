"""fitlog where fcntl, termios, killpg and all else that Windows lacks is missing: chosen rooms run whole."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
FEW = ["tests/saving/test_save.py", "tests/workspace/test_files.py", "tests/cli/commands/bag/test_bag.py"]
MORE = [
    "tests/workspace",
    "tests/saving",
    "tests/cli/commands/workspace/test_sync.py",
    "tests/sync",
    "tests/history",
    "tests/actions",
]
ALONE = {"PYTEST_XDIST_WORKER", "PYTEST_XDIST_WORKER_COUNT", "PYTEST_CURRENT_TEST"}


def test_the_rooms_that_touch_the_system_run_without_what_windows_lacks(long: bool) -> None:
    import os

    # tests that need a pipe, a link that is refused or a limit of memory skip themselves there
    left_out = ["--deselect", "tests/saving/test_carry_out.py", "--ignore", "tests/saving/test_carry_out.py"]
    ran = subprocess.run(
        [sys.executable, "-m", "pytest", "-p", "tests.system.hidden", "-n0", "-q", "--no-header", *left_out]
        + (MORE if long else FEW),
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        env={name: value for name, value in os.environ.items() if name not in ALONE},
    )
    assert ran.returncode == 0, ran.stdout[-3000:]


@pytest.mark.parametrize("name", ["fcntl", "termios", "resource", "pwd"])
def test_nothing_of_fitlog_imports_what_one_system_alone_has(name: str) -> None:
    texts = {path: path.read_text(encoding="utf-8") for path in (ROOT / "fitlog").rglob("*.py")}
    assert [str(path) for path, text in texts.items() if f"import {name}" in text] == []
