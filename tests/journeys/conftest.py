"""Two vans with one shared repository, the shell in this process, and sheets."""

from tests.cli.conftest import anywhere as anywhere
from tests.cli.conftest import fitlog as fitlog
from tests.report.conftest import evil as evil
from tests.report.conftest import full as full
from tests.report.conftest import tried as tried
from tests.sync.conftest import bare_repository as bare_repository
from tests.sync.conftest import vans as vans
