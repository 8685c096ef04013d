"""The tools of calc through the shell."""

import pytest

from tests.cli.conftest import Run

CLUB = ["--head", "200@44.5", "--shaft", "60@22.5:44", "--grip", "50@4:10.5", "--at", "4@43.5"]


def check_known(anywhere: Run, argv: list[str], known: dict[str, float]) -> None:
    """The tool computes the values that are known, and has words for them."""
    ran = anywhere("calc", *argv, "--json")
    assert (ran.status, ran.err) == (0, "")
    for key, value in known.items():
        assert ran.json[key] == pytest.approx(value, rel=5e-4)
    text = anywhere("calc", *argv)
    assert text.status == 0
    assert text.out.strip()


def help_of(anywhere: Run, name: str) -> str:
    """The help of a tool in one line."""
    return " ".join(anywhere("calc", name, "--help").out.split())


def check_refusal(anywhere: Run, argv: list[str], status: int, words: str) -> None:
    """The tool says why it computes nothing, in words and as JSON."""
    ran = anywhere("calc", *argv, "--json")
    assert (ran.status, ran.json["status"]) == (status, status)
    assert ran.err.startswith("error: ")
    assert words in ran.err
