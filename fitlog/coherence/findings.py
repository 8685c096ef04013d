"""What is found about a bag.

One sentence each, with its club, its rule and its level.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

RULE, GAP, STALE, TARGET, GRIP, NOT_CHECKED = "rule", "gap", "stale", "target", "grip", "not checked"
CONTRADICTION = "contradiction"
LEVELS = (RULE, CONTRADICTION, STALE, TARGET, GRIP, GAP, NOT_CHECKED)
DECIDES = "the committee decides"

USED, NOT_USED = "used", "not used"


class Finding(NamedTuple):
    """One thing to look at.

    ``slot`` is the club's address, empty for the bag as a whole.

    ``rule`` names the rule where there is one; ``tolerance`` says of a rule with a number whether the value
    passes only because a test tolerance is counted (``used``) or is outside all the same (``not used``).
    """

    kind: str
    slot: str
    sentence: str
    rule: str
    level: str
    tolerance: str = ""

    def __str__(self) -> str:
        return f"{self.slot}: {self.sentence}" if self.slot else self.sentence


def sort(findings: Sequence[Finding]) -> list[Finding]:
    """The weightiest level first, what passes only by a tolerance at its end.

    Otherwise the order stays, which is the bag's.
    """
    return sorted(findings, key=lambda each: (LEVELS.index(each.level), each.tolerance == USED))


def unknown_value(what: str, slot: str, rule: str) -> Finding:
    """A value that nobody wrote down, so that its rule is not checked.

    >>> unknown_value("head volume", "3w", "4b(i)").sentence
    'head volume not known, so 4b(i) is not checked'
    """
    return Finding(what, slot, _unknown_sentence([what], rule), rule, NOT_CHECKED)


def _unknown_sentence(what: Sequence[str], rule: str) -> str:
    return f"{', '.join(what)} not known, so {rule} is not checked"


def name_unchecked(findings: Sequence[Finding]) -> str:
    """The rules that could not be checked in one line.

    What is not known of the clubs, each with its rule's number.

    Empty where all that the rules need is known.

    >>> missing = [unknown_value(each, "3w", "Part 2, 4b(i)") for each in ("head volume", "head MOI")]
    >>> name_unchecked([*missing, unknown_value("CT", "3w", "Part 2, 4c(i)")])
    'head volume, head MOI (4b(i)), CT (4c(i))'
    """
    of_rule: dict[str, list[str]] = {}
    for each in findings:
        if is_unchecked_rule(each):
            of_rule.setdefault(each.rule, []).append(each.kind)
    return ", ".join(f"{', '.join(dict.fromkeys(kinds))} ({_clause(rule)})" for rule, kinds in of_rule.items())


def is_unchecked_rule(finding: Finding) -> bool:
    """Whether it says no more than that a rule was not checked."""
    return finding.level == NOT_CHECKED and bool(finding.rule)


def _clause(rule: str) -> str:
    return rule.rpartition(", ")[2]


def group(findings: Sequence[Finding]) -> list[Finding]:
    """Sort, with what could not be checked once for all clubs that it concerns.

    A rule stands once for all that is not known of the same clubs.

    >>> what = ("head volume", "head MOI")
    >>> missing = [unknown_value(each, slot, "4b(i)") for slot in ("3w", "5w") for each in what]
    >>> [str(each) for each in group(missing)]
    ['3w, 5w: head volume, head MOI not known, so 4b(i) is not checked']
    """
    clubs: dict[Finding, list[str]] = {}
    for each in sort(findings):
        key = each._replace(slot="") if each.level == NOT_CHECKED else each
        clubs.setdefault(key, []).append(each.slot)
    out: list[Finding] = []
    of_rule: dict[tuple[str, str], int] = {}
    for each, slots in clubs.items():
        found = each._replace(slot=", ".join(filter(None, slots)))
        if each != unknown_value(each.kind, "", each.rule):
            out.append(found)
        elif (found.slot, each.rule) in of_rule:
            place = of_rule[found.slot, each.rule]
            kinds = f"{out[place].kind}, {each.kind}"
            out[place] = found._replace(kind=kinds, sentence=_unknown_sentence([kinds], each.rule))
        else:
            of_rule[found.slot, each.rule] = len(out)
            out.append(found)
    return out


_TEST_ADDRESS = re.compile(r"of \d{4}-\d\d-\d\d-\w+#\w+ ")


def fold_evidence(findings: Sequence[Finding]) -> list[Finding]:
    """Stale evidence once for all the clubs that it concerns in the same way.

    Then no test is named.

    >>> stale = "evidence of 2026-04-18-q7k#t is stale: ball A → B"
    >>> old = [Finding("", slot, stale, "", STALE) for slot in "ab"]
    >>> [str(each) for each in fold_evidence(old)], [str(each) for each in fold_evidence(old[:1])]
    (['a, b: evidence is stale: ball A → B'], ['a: evidence of 2026-04-18-q7k#t is stale: ball A → B'])
    """
    alike: dict[tuple[str, str], list[Finding]] = {}
    for each in findings:
        stale = each.level == STALE
        sentence = _TEST_ADDRESS.sub("", each.sentence) if stale else f"{each.slot}: {each.sentence}"
        alike.setdefault((each.level, sentence), []).append(each)
    return [
        first._replace(slot=", ".join(each.slot for each in (first, *more)), sentence=key[1]) if more else first
        for key, (first, *more) in alike.items()
    ]
