"""A change that two vans can make."""

from fitlog.actions.bag import edit
from fitlog.saving.desk import Desk
from fitlog.workspace.assignments import parse_settings


def set_length(desk: Desk, length: float, reason: str) -> None:
    edit.bag_set(desk, "mo", "3w", parse_settings([f"length_in={length}"]), reason)
