"""A season closed, and a change in the next."""

from tests.report.sheets.conftest import year as year
