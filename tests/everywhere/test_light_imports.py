"""What is used at each key entry loads no heavy library; the statistics load theirs at the first call."""

from __future__ import annotations

import subprocess
import sys

import pytest


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
