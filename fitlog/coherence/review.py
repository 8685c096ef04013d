"""The bag as a whole: everything that is found about it, in one typed list."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fitlog.coherence.checks.carries import Carry, Ratio, carry_findings, carry_of
from fitlog.coherence.checks.evenness import step_target_findings, uneven_findings
from fitlog.coherence.checks.grips import grip_findings
from fitlog.coherence.checks.rules import clubs_carried, rule_findings
from fitlog.coherence.checks.stale import AgeRule, Tests, stale_findings
from fitlog.coherence.club.complete import Parts
from fitlog.coherence.club.contradictions import contradictions
from fitlog.coherence.club.known_club import KnownClub, known_club
from fitlog.coherence.findings import CONTRADICTION, NOT_CHECKED, Finding, sort
from fitlog.coherence.ladder import Rung, ladder, step_findings, target_findings
from fitlog.records.errors import UsageError
from fitlog.records.models.bag import Bag, Club, MakeUp, find_clubs
from fitlog.records.models.player import Player


def review(
    bag: Bag,
    player: Player,
    tests: Tests | None = None,
    parts: Parts | None = None,
    points: Mapping[str, float] | None = None,
    makeup: str = "",
    rule: AgeRule | None = None,
    ratios: Mapping[str, Ratio] | None = None,
) -> list[Finding]:
    """What is found about a bag.

    Rules, stale evidence, targets, grips, the ladders, and what was not checked.

    Each club in the file is looked at by itself; the number of clubs and the ladders are those carried, and each
    make-up is counted too. With ``makeup`` it is that make-up's clubs and no others.

    tests: what the clubs' evidence names, by address; parts: the parts that setups name, by shelf and id;
    points: swing weights computed from components, above A0, by the club's address; rule: by which the
    player's evidence grows old, None lets it hold; ratios: carry in the reference air over that of the day, by test.
    Returns findings, weightiest first. Raises UsageError for a make-up that the bag does not have.

    >>> from fitlog.records.models.setup import Setup
    >>> bag = Bag(club=(Club("driver", setup=Setup(length_in=48.01)),))
    >>> print(review(bag, Player("Mo Ferrant", "left"))[0].sentence[:70])
    length 48.01 in is over the 48 in of Equipment Rules Part 2, 1c; the t
    """
    tests, parts = tests or {}, parts or {}
    chosen = makeup_clubs(bag, makeup) if makeup else bag.carried
    looked_at = chosen if makeup else bag.clubs
    known = {club.address: known_club(club, parts, points) for club in looked_at}
    carries = {club.address: carry for club in looked_at if (carry := carry_of(club, tests, bag, rule, ratios))}
    out = _counts(bag, makeup)
    out += rule_findings(list(known.values()), player.local_46_in)
    for club in looked_at:
        out += stale_findings(club, tests, bag, rule)
        out += [
            Finding("contradiction", club.address, each.sentence, "", CONTRADICTION)
            for each in contradictions(club, parts, player.hand)
        ]
    out += _targets_and_steps(known, chosen, carries, player)
    for each in known.values():
        out += grip_findings(each, player.grip_pattern)
        out += _missing_parts(each)
        out += _unmarked_hand(each, parts)
    in_play = [carries[club.address] for club in chosen if club.address in carries]
    out += carry_findings(chosen, in_play)
    return sort(out)


def makeup_clubs(bag: Bag, name: str) -> tuple[Club, ...]:
    """The clubs of a make-up in bag order; of several in a slot the carried one.

    Raises UsageError for a make-up that the bag does not have.
    """
    makeup = next((each for each in bag.makeup if each.name == name), None)
    if makeup is None:
        known = ", ".join(each.name for each in bag.makeup) or "none yet"
        raise UsageError(f"there is no make-up '{name}'", do=f"the bag has {known}")
    return _clubs_of(bag, makeup)


def _clubs_of(bag: Bag, makeup: MakeUp) -> tuple[Club, ...]:
    named = {found[0].address for wanted in makeup.clubs if (found := find_clubs(bag, wanted))}
    return tuple(club for club in bag.clubs if club.address in named)


def _counts(bag: Bag, makeup: str) -> list[Finding]:
    out = [] if makeup else clubs_carried(len(bag.carried))
    for each in bag.makeup:
        if makeup in ("", each.name):
            out += clubs_carried(len(_clubs_of(bag, each)), each.name)
    return out


def _targets_and_steps(
    clubs: Mapping[str, KnownClub], carried: tuple[Club, ...], carries: Mapping[str, Carry], player: Player
) -> list[Finding]:
    out: list[Finding] = []
    for rung in ladder(list(clubs.values()), player):
        out += target_findings(rung, carries.get(rung.slot))
    rungs = ladder([clubs[club.address] for club in carried], player)
    out += _uneven(rungs)
    out += step_target_findings(rungs, player)
    return out


def uneven_ladder(bag: Bag, player: Player, parts: Parts) -> list[Finding]:
    """What is uneven in the ladder of the clubs carried, in degrees and inches.

    >>> from fitlog.records.models.setup import Setup
    >>> bag = Bag(club=tuple(Club(f"{n}i", setup=Setup(loft_deg=loft)) for n, loft in ((7, 33.0), (8, 33.5))))
    >>> [str(each) for each in uneven_ladder(bag, Player("Mo Ferrant", "left"), {})]
    ["8i: loft 33.5° is 0.5° from the 7i's 33°: less than 1°"]
    """
    return _uneven(ladder([known_club(club, parts) for club in bag.carried], player))


def _uneven(rungs: Sequence[Rung]) -> list[Finding]:
    return [*step_findings(rungs), *uneven_findings(rungs)]


def _missing_parts(club: KnownClub) -> list[Finding]:
    return [
        Finding("part", club.slot, f"{name} is not there, so its data is missing", "", NOT_CHECKED)
        for name in club.missing
    ]


def _unmarked_hand(club: KnownClub, parts: Parts) -> list[Finding]:
    part = parts.get(f"heads/{club.setup.head.part}")
    if part is None or part.stock.hand is not None:
        return []
    sentence = "the head's part is not marked right or left, so its hand is not checked"
    return [Finding("hand of the head", club.slot, sentence, "", NOT_CHECKED)]
