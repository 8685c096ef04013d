"""Whether two tests were hit with one and the same setup."""

from fitlog.records.models.session import ClubTest


def same_setup(one: ClubTest, other: ClubTest) -> bool:
    """Whether two tests were hit with one setup, but for weighings since."""
    from fitlog.coherence.checks.stale import describe_setup_change

    then, now = one.raw.get("setup", {}), other.raw.get("setup", {})
    return not describe_setup_change(then, now) and not describe_setup_change(now, then)
