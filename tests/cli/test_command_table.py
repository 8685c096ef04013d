"""Every command with its functions and its help."""

import pytest

from fitlog.cli import command_table
from tests.cli.conftest import Run


@pytest.mark.parametrize("name", command_table.names())
def test_every_command_has_its_functions_its_help_and_json(name: str, anywhere: Run) -> None:
    module, text = command_table.find(name) or ("", "")
    assert all(callable(each) for each in command_table.functions_of(name, module)[:2])
    ran = anywhere(*name.split(), "--help")
    assert ran.status == 0
    assert f"usage: fitlog {name} " in ran.out
    assert text[1:] in " ".join(ran.out.split())
    assert "--json" in ran.out
    assert "--workspace DIR" in ran.out


def test_top_help_names_every_command(anywhere: Run) -> None:
    for words in (["--help"], ["-h"], ["help"], ["help", "help"], ["--help", "-h"]):
        ran = anywhere(*words)
        assert ran.status == 0
        for name in command_table.names():
            assert f"  {name} " in ran.out
