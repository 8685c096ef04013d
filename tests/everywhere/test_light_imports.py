"""What is used at each key entry, and at each start, loads no heavy library; others load theirs at the first call."""

from __future__ import annotations

import subprocess
import sys

import pytest

from fitlog.saving.desk import Desk


@pytest.mark.parametrize(
    "module",
    [
        "shots.terms",
        "shots.quantities",
        "shots.plausible",
        "pattern.mishits",
        "criteria.criteria",
        "assessment.assess",
    ],
)
def test_import_loads_neither_numpy_nor_scipy(module: str) -> None:
    code = (
        f"import sys, fitlog.evidence.{module}; print(sorted({{'numpy', 'scipy', 'dataclasses'}} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_checking_a_shot_loads_neither() -> None:
    code = (
        "import sys; from fitlog.evidence.shots.plausible import check_shot, check_shots;"
        "from fitlog.evidence.pattern.mishits import suggest;"
        "shots = [{'ball_speed_mph': 150.0, 'head_speed_mph': 101.0, 'carry_yd': 240.0 + i} for i in range(9)];"
        "check_shot(shots[0]); check_shots(shots); suggest(shots);"
        "print('numpy' in sys.modules or 'scipy' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_intervals_do_without_scipy_stats() -> None:
    code = (
        "import sys; from fitlog.evidence.assessment.assess import assess;"
        "assess([{'carry_yd': 1.0 * i} for i in range(6)], [{'carry_yd': 2.0 * i} for i in range(6)]);"
        "print('scipy.special' in sys.modules, 'scipy.stats' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "True False"


def test_printing_a_bag_loads_little(desk: Desk) -> None:
    """The start-up budget of the shell, three times a bare interpreter, has no room for these."""
    code = (
        "import sys; from fitlog.cli.main import main; main(sys.argv[1:]);"
        "heavy = {'json', 'unicodedata', 'dataclasses', 'subprocess', 'tomlkit', 'git', 'rich', 'textual'};"
        "print(sorted(heavy & set(sys.modules)), file=sys.stderr)"
    )
    command = [sys.executable, "-c", code, "-w", desk.root, "bag", "mo", "--json"]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    assert '"slot": "3w"' in done.stdout
    assert done.stderr.strip() == "[]"
