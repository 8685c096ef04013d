"""A candidate of the 3w that waits for a verdict."""

from fitlog.actions.session import setup
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings


def candidate(desk: Desk, *values: str) -> str:
    return setup.start_test(desk, "mo", "3w", values=parse_settings(values or ["shaft.model=Osier 75"])).ref
