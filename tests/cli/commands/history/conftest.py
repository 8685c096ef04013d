"""A shell over clubs that were changed since they were proven."""

import pytest

from tests.cli.conftest import Run


@pytest.fixture
def changed_fitlog(fitlog: Run) -> Run:
    """The 3w was proven, then changed; so was the driver."""
    assert fitlog("proven", "mo", "3w", "--reason", "won with it").status == 0
    for slot, value in (("3w", "length_in=42.5"), ("driver", "length_in=45")):
        assert fitlog("bag-set", "mo", slot, "--set", value, "--reason", f"shorter {slot}").status == 0
    return fitlog
