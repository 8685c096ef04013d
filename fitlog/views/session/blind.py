"""What a plan keeps hidden until it opens: outcomes, and which club is which.

A plan is open once all its shots are hit, or one of its tests is decided. Every view asks here.
"""

from collections.abc import Collection, Iterator, Mapping
from typing import Any, NamedTuple

from fitlog.records.errors import FitlogError
from fitlog.records.models.session import Session, ref
from fitlog.records.naming.refs import TestRef
from fitlog.saving.desk import Desk
from fitlog.views.session.plans import describe_hidden, hidden_tests, planned_tests

HIDDEN = "hidden until its planned shots are hit"
_OPEN_KEYS = ("slot", "planned_shots")  # what a blind test still says of itself


class HiddenTests(NamedTuple):
    """A session's hidden tests and why; ``codes`` of those whose club is too."""

    why: Mapping[str, str]
    codes: Mapping[str, str]

    def has(self, test: str) -> bool:
        """Whether a test's outcomes are hidden."""
        return test in self.why

    def name(self, test: str) -> str:
        """What a blind test is called: ``club A``; empty where its club is told."""
        return f"club {self.codes[test]}" if test in self.codes else ""


def hidden_in(record: Session) -> HiddenTests:
    """What a session hides.

    >>> hidden_in(Session(None))
    HiddenTests(why={}, codes={})
    """
    hidden = hidden_tests(record) if record.plan else frozenset()
    plans = [(each, name) for each in planned_tests(record) for name in each.plan.tests if name in hidden]
    return HiddenTests(
        {name: describe_hidden(each) for each, name in plans},
        {name: each.plan.code_of(name) for each, name in plans if each.plan.blind},
    )


def hidden_refs(desk: Desk, refs: Collection[tuple[str, str]]) -> set[tuple[str, str]]:
    """Those of some tests that are hidden; an unreadable session hides none.

    Each is a player and an address.
    """
    sessions = {(player, TestRef.split(where).session) for player, where in refs if "#" in where}
    return {(player, ref(name, test)) for player, name in sessions for test in hidden_now(desk, player, name).why}


def hidden_now(desk: Desk, player: str, name: str) -> HiddenTests:
    """What a session hides as it stands now; nothing where it cannot be read."""
    try:
        return hidden_in(desk.workspace.session(player, name))
    except FitlogError:
        return HiddenTests({}, {})


def hide_in_table(table: Mapping[str, Any], hidden: HiddenTests) -> dict[str, Any]:
    """A session's file as it may be shown: hidden tests without measures.

    Blind ones in the order of their codes.

    >>> shots = [{"id": "k", "carry_yd": 230.0}]
    >>> table = {"test": [{"id": "b4t", "slot": "3w", "role": "reference", "shots": shots}]}
    >>> hide_in_table(table, HiddenTests({"b4t": "hidden"}, {"b4t": "A"}))["test"]
    [{'slot': '3w', 'code': 'A', 'hidden': 'hidden', 'shots': [{'id': 'k'}]}]
    """
    rows = table.get("test")
    if not hidden.why or not isinstance(rows, list):
        return dict(table)
    tests = list(_hide_rows([row for row in rows if isinstance(row, Mapping)], hidden))
    out = {**table, "test": sorted(tests, key=lambda row: str(row.get("code", "")))}
    if isinstance(plans := table.get("plan"), list) and hidden.codes:
        out["plan"] = [hide_plan(plan, hidden) for plan in plans if isinstance(plan, Mapping)]
    return out


def _hide_rows(rows: list[Mapping[str, Any]], hidden: HiddenTests) -> Iterator[dict[str, Any]]:
    for row in rows:
        name = str(row.get("id"))
        if not hidden.has(name):
            yield dict(row)
            continue
        shots = [{"id": shot.get("id")} for shot in row.get("shots", []) if isinstance(shot, Mapping)]
        kept = {key: value for key, value in row.items() if key != "shots"}
        if name in hidden.codes:
            kept = {key: row[key] for key in _OPEN_KEYS if key in row} | {"code": hidden.codes[name]}
        yield {**kept, "hidden": hidden.why[name], "shots": shots}


def hide_plan(plan: Mapping[str, Any], hidden: HiddenTests) -> dict[str, Any]:
    """A blind plan without which club each code is."""
    is_hidden = any(name in hidden.codes for name in plan.get("tests", []))
    return {key: value for key, value in plan.items() if not (is_hidden and key == "tests")}
