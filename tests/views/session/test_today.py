"""The session of today."""

from datetime import timedelta
from pathlib import Path

from fitlog.actions.session import setup
from fitlog.saving.desk import Desk
from fitlog.views.session import today


def test_a_session_dated_in_the_future_is_not_todays(desk: Desk) -> None:
    """Another van's clock, or another time zone."""
    where = setup.start_test(desk, "mo", "3w").session
    ahead = (desk.now().date() + timedelta(days=1)).isoformat()
    text = Path(desk.root, f"players/mo/sessions/{where}.toml").read_text()
    Path(desk.root, f"players/mo/sessions/{ahead}-zzz.toml").write_text(text.replace(where[:10], ahead))
    assert today.todays_session(desk, "mo") == where
    assert setup.start_test(desk, "mo", "3w").session == where
