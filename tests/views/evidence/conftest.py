"""A session worth words, and the shell."""

from tests.cli.conftest import anywhere as anywhere
from tests.report.conftest import tried as tried
