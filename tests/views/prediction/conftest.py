"""A reference of the driver that has been hit."""

from tests.actions.session.conftest import reference as reference
