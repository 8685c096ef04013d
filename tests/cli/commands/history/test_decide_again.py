"""decide-again: what was told then beside today's."""

from pathlib import Path

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run

SHOTS = [part for n in range(8) for part in ("--shot", f"{226 + n % 4} {n % 3} 150")]
LONGER = [part for n in range(8) for part in ("--shot", f"{236 + n % 4} {n % 3} 152")]


def _decided(fitlog: Run) -> str:
    assert fitlog("test", "mo", "3w", "--reference", *SHOTS).status == 0
    argv = ["test", "mo", "3w", "--set", "shaft.model=Osier 75", "--criterion", "carry_yd:gain_at_least=3", *LONGER]
    ref = str(fitlog(*argv, "--json").json["ref"])
    assert fitlog("verdict", "mo", ref, "keep", "--reason", "ten yards").status == 0
    return ref


def test_the_same_shots_tell_the_same(fitlog: Run) -> None:
    ref = _decided(fitlog)
    ran = fitlog("decide-again", "mo", ref)
    assert ran.status == 0, ran.err
    assert "today's method says the same" in ran.out
    assert "carry at least 3 yd above the reference  met" in ran.out


def test_another_method_is_named_with_what_it_moved(desk: Desk, fitlog: Run) -> None:
    ref = _decided(fitlog)
    path = Path(desk.root, "players/mo/sessions", f"{ref.partition('#')[0]}.toml")
    old = path.read_text().replace('method = "evidence 2"', 'method = "evidence 1"')
    path.write_text(old.replace("the reference: met", "the reference: missed"))
    found = fitlog("decide-again", "mo", ref, "--json").json
    assert found["because"] == ["another method (evidence 1 → evidence 2)"]
    (moved,) = [each for each in found["criteria"] if each["then"] != each["now"]]
    assert (moved["then"], moved["now"]) == ("missed", "met")
    assert found["sentence"].startswith("today's method says otherwise, because of another method")


def test_what_was_not_decided(fitlog: Run, ref: str) -> None:
    assert fitlog("decide-again", "mo", ref).status == 1
