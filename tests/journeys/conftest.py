"""Two vans with one shared repository, and the shell in this process."""

from tests.cli.conftest import anywhere as anywhere
from tests.cli.conftest import fitlog as fitlog
from tests.sync.conftest import bare_repository as bare_repository
from tests.sync.conftest import vans as vans
