"""One day says that it is one, and what it says of all days where the player's own spread of days is known."""

from pathlib import Path

from fitlog.saving.desk import Desk
from fitlog.views.evidence.presentation import DAYS, present_evidence
from fitlog.views.verdict.context import test_context as context_of
from fitlog.views.verdict.days import ONE_DAY, ONE_DAY_OF_KNOWN, over_days
from fitlog.views.verdict.evidence import assessment

CARRIES = (228, 231, 226, 233, 229, 232, 230, 227)


def write_day(desk: Desk, day: str, moved: float, candidate: bool) -> None:
    folder = Path(desk.root, "players/mo/sessions")
    folder.mkdir(exist_ok=True)
    rows = [f"date = {day}"]
    for name, role, gain in (("rrr", "reference", 0.0), ("ccc", "candidate", 9.0))[: 1 + candidate]:
        rows += ["[[test]]", f'id = "{name}"', 'slot = "3w"', f'role = "{role}"']
        rows += ['criteria = [{metric = "carry_yd", at_least = 232.0}]'] if role == "candidate" else []
        rows += [f"setup.length_in = {43.0 + gain / 18}", "shots = ["]
        rows += [f'  {{id = "{name[0]}{n}x", carry_yd = {carry + moved + gain}}},' for n, carry in enumerate(CARRIES)]
        rows += ["]"]
    (folder / f"{day}-aaa.toml").write_text("\n".join(rows) + "\n")


def days_of(desk: Desk, day: str) -> tuple[str, ...]:
    found = assessment(desk, "mo", f"{day}-aaa#ccc")
    return present_evidence(found, context_of(desk, "mo", found)).section(DAYS)


def test_one_day_alone_says_so(desk: Desk) -> None:
    write_day(desk, "2026-04-18", 0.0, candidate=True)
    assert days_of(desk, "2026-04-18") == (ONE_DAY,)


def test_one_day_is_held_against_the_days_that_were_learned(desk: Desk) -> None:
    for day, moved in (("2026-03-01", -4.0), ("2026-03-08", 3.0), ("2026-03-15", 1.0)):
        write_day(desk, day, moved, candidate=False)
    write_day(desk, "2026-04-18", 0.0, candidate=True)
    alone, over_all = days_of(desk, "2026-04-18")
    assert alone == ONE_DAY
    assert over_all.startswith("carry over all days: middle shot 238.5 yd, 95 % interval ")
    assert over_all.endswith("with this player's day-to-day spread, learned on 4 days")
    (question,) = over_days(desk, "mo")
    (carry,) = [each for each in question.quantities if each.metric == "carry_yd"]
    assert not carry.tells  # days of an unchanged club differ by as much
    assert question.sentences == (f"2026-04-18 alone: no difference seen in carry (at most {carry.high:.0f} yd)",)
    assert carry.sentence.startswith("2026-04-18 alone: carries 9 yd farther than the reference, 95 % interval ")
    assert carry.sentence.endswith("; with this player's day-to-day spread, learned on 4 days")
    assert question.notes == (ONE_DAY_OF_KNOWN,)


def test_over_days_no_interval_is_narrower_than_the_shots_of_one_day_allow(desk: Desk) -> None:
    """Days that happened to be much alike promise nothing that the shots of the day do not keep."""
    for day, moved in (("2026-03-01", 0.01), ("2026-03-08", 0.0), ("2026-03-15", 0.01)):
        write_day(desk, day, moved, candidate=False)
    write_day(desk, "2026-04-18", 0.0, candidate=True)
    here = assessment(desk, "mo", "2026-04-18-aaa#ccc").assessment
    assert here is not None
    alone = here.without.compared["carry_yd"].difference
    (question,) = over_days(desk, "mo")
    (carry,) = [each for each in question.quantities if each.metric == "carry_yd"]
    assert carry.tells
    assert carry.low <= alone.low
    assert carry.high >= alone.high
    assert question.sentences == (carry.sentence,)
