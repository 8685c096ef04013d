"""The shell in this process, and the workspaces of the app's tests."""

from tests.cli.conftest import anywhere as anywhere
from tests.cli.conftest import fitlog as fitlog
from tests.tui.conftest import proven as proven
from tests.tui.conftest import waiting as waiting
