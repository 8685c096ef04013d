"""Running a command in this process, and looking at what it printed."""

import json
from collections.abc import Callable
from typing import Any, NamedTuple

import pytest

from fitlog.cli.main import main
from fitlog.saving.desk import Desk


class Ran(NamedTuple):
    """What a command ended with and printed."""

    status: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """The one JSON document."""

        def none(name: str) -> None:
            raise AssertionError(f"{name} is not JSON")

        return json.loads(self.out, parse_constant=none)


Run = Callable[..., Ran]


@pytest.fixture
def anywhere(capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command outside any workspace."""

    def run(*argv: str) -> Ran:
        capsys.readouterr()
        status = main(list(argv))
        out, err = capsys.readouterr()
        return Ran(status, out, err)

    return run


@pytest.fixture
def fitlog(desk: Desk, anywhere: Run) -> Run:
    """Run a command in the small workspace: mo, left-handed, with driver, 3w and 7i."""
    return lambda *argv: anywhere("-w", desk.root, *argv)


@pytest.fixture
def ref(fitlog: Run) -> str:
    """The address of a 3w candidate with three shots."""
    shots = [part for line in ("230 4L 150", "233 2 151", "229 -3 149") for part in ("--shot", line)]
    ran = fitlog("test", "mo", "3w", "--set", "shaft.model=Osier 75", "shaft.tip_trim_in=1.25", *shots, "--json")
    assert ran.status == 0, ran.err
    return str(ran.json["ref"])
