"""Findings about a bag as a whole, and each club's carry from its own tests."""

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from fitlog.records.errors import BrokenFile, FitlogError, UsageError
from fitlog.records.models.bag import Bag, Club
from fitlog.records.models.part import Part
from fitlog.records.models.session import Session
from fitlog.records.naming.refs import TestRef
from fitlog.records.naming.slots import head_kind
from fitlog.saving.desk import Desk
from fitlog.views.bench.setup import load_parts

if TYPE_CHECKING:
    from fitlog.coherence.checks.carries import Carry, Ratio, Step
    from fitlog.coherence.checks.stale import AgeRule, EvidenceAge, EvidenceTest
    from fitlog.coherence.club.known_club import KnownClub
    from fitlog.coherence.findings import Finding


def findings(desk: Desk, player: str, makeup: str = "", bag: Bag | None = None) -> "list[Finding]":
    """What to look at in the bag, weightiest first.

    A make-up limits it to its own clubs.

    ``bag`` is an earlier one, here and below; None is today's.
    Only the sessions that the clubs' evidence names are read. Raises UsageError for a player or make-up that is not
    there, BrokenFile for a broken bag or player file; a broken session or part counts as not there.
    """
    from fitlog.coherence.review import review

    player = desk.workspace.pick_player(player)
    bag = bag or desk.workspace.bag(player)
    parts = _parts(desk, bag)
    tests = evidence_tests(desk, player, bag.clubs)
    rule, ratios = player_age_rule(desk, player), _ratios(desk, tests)
    return review(bag, desk.workspace.player(player), tests, parts, _points(bag, parts), makeup, rule, ratios)


def evidence_tests(desk: Desk, player: str, clubs: Iterable[Club]) -> "dict[str, EvidenceTest]":
    """The tests that the clubs rest on, by address, as far as they can be read."""
    from fitlog.coherence.checks.stale import EvidenceTest

    sessions: dict[str, Session | None] = {}
    out = {}
    for address in dict.fromkeys(ref for club in clubs for ref in club.evidence):
        name, test_id = TestRef.split(address)
        if name not in sessions:
            try:
                sessions[name] = desk.workspace.session(player, name)
            except (BrokenFile, UsageError):
                sessions[name] = None
        session = sessions[name]
        test = next((each for each in session.test if each.id == test_id), None) if session else None
        if session and test:
            out[address] = EvidenceTest(address, session, test)
    return out


def carries(desk: Desk, player: str, bag: Bag | None = None) -> "dict[str, Carry]":
    """The tested carry of each club that has one, by its address, longest first."""
    from fitlog.coherence.checks.carries import carry_of

    player = desk.workspace.pick_player(player)
    bag = bag or desk.workspace.bag(player)
    tests = evidence_tests(desk, player, bag.clubs)
    rule, ratios = player_age_rule(desk, player), _ratios(desk, tests)
    found = [carry for club in bag.clubs if (carry := carry_of(club, tests, bag, rule, ratios))]
    return {each.slot: each for each in sorted(found, key=lambda each: -each.reference_yd)}


def carry_ladder(carries: "Mapping[str, Carry]", bag: Bag) -> "tuple[tuple[Carry, ...], tuple[Step, ...]]":
    """The known ``carries`` of the clubs carried, longest first, and their steps."""
    from fitlog.coherence.checks.carries import carry_steps

    addresses = {club.address for club in bag.carried}
    carried = tuple(each for address, each in carries.items() if address in addresses)
    return carried, carry_steps(carried, bag.carried)


def known_clubs(desk: Desk, player: str, bag: Bag | None = None) -> "dict[str, KnownClub]":
    """Each club of the bag with its values and their sources, by its address."""
    from fitlog.coherence.club.known_club import known_club

    player = desk.workspace.pick_player(player)
    bag = bag or desk.workspace.bag(player)
    parts = _parts(desk, bag)
    points = _points(bag, parts)
    return {club.address: known_club(club, parts, points) for club in bag.clubs}


def evidence_ages(desk: Desk, player: str, bag: Bag | None = None) -> "dict[str, list[EvidenceAge]]":
    """Every test that each club rests on and what changed since, by club address."""
    from fitlog.coherence.checks.stale import evidence_ages as ages_of

    player = desk.workspace.pick_player(player)
    bag = bag or desk.workspace.bag(player)
    tests = evidence_tests(desk, player, bag.clubs)
    rule = player_age_rule(desk, player)
    return {club.address: ages_of(club, tests, bag, rule) for club in bag.clubs}


def _ratios(desk: Desk, tests: "dict[str, EvidenceTest]") -> "dict[str, Ratio]":
    """Carry in the reference air over that of the day, by the test's address."""
    from fitlog.views.flight.reference_carry import reference_ratios

    return reference_ratios(desk, tests)


def player_age_rule(desk: Desk, player: str) -> "AgeRule | None":
    """How long evidence holds by the player's own rule, as of today.

    Returns None without one, or in a broken file.
    """
    from fitlog.coherence.checks.stale import age_rule

    try:
        months = desk.workspace.player(player).evidence_months
    except FitlogError:
        return None
    return age_rule(months, desk.now().date())


def _parts(desk: Desk, bag: Bag) -> dict[str, Part]:
    parts: dict[str, Part] = {}
    for club in bag.clubs:
        parts |= load_parts(desk, club.setup, parts)
    return parts


def _points(bag: Bag, parts: dict[str, Part]) -> dict[str, float]:
    """The swing weights of the clubs whose components are known."""
    from fitlog.bench.club import assemble
    from fitlog.bench.components.masses import sums
    from fitlog.views.bench.parts import components_of

    out = {}
    for club in bag.clubs:
        try:
            out[club.address] = sums(
                assemble(components_of(club.setup, head_kind(club.slot, club.of_kind), parts).parts).pieces
            ).points
        except FitlogError:
            continue
    return out
