"""The shell, through which what a plan hides is looked for."""

from tests.cli.commands.session.conftest import file as file
from tests.cli.conftest import anywhere as anywhere
from tests.cli.conftest import fitlog as fitlog
