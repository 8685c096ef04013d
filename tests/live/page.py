"""What the page says at first."""

from typing import Any

from fitlog.live.state import page_state
from fitlog.saving.desk import Desk


def first_state(desk: Desk, blind: bool = False) -> dict[str, Any]:
    return page_state(desk, "mo", blind)
