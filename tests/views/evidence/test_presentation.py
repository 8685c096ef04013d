"""One wording of the evidence: shell, screen and sheet print the same sentences, in the units shown."""

import re
from pathlib import Path

import pytest

from fitlog.actions.session import setup, shots
from fitlog.report.formats.rendering import render
from fitlog.report.sheets import verdict
from fitlog.saving.desk import Desk
from fitlog.tui.text.units import Units
from fitlog.tui.verdict.text import evidence_lines, number_lines
from fitlog.views.evidence.presentation import LIMITS, present_evidence
from fitlog.views.sheets.verdict_sheet import verdict_sheets
from fitlog.views.verdict.context import test_context as context_of
from fitlog.views.verdict.evidence import assessment
from tests.cli.conftest import Run
from tests.report.conftest import Tried
from tests.views.evidence.texts import presented


def on_screen(desk: Desk, ref: str) -> str:
    found = assessment(desk, "mo", ref)
    shown = present_evidence(found, context_of(desk, "mo", found))
    units = Units(desk.workspace.settings_at_hand().units)
    lines = evidence_lines(shown, number_lines(found.test, found.reference, units), 400)
    return "\n".join(line.plain for line in lines)


def plain(text: str) -> str:
    """Text without where it was wrapped."""
    return " ".join(text.split())


def in_metres(desk: Desk) -> None:
    with open(Path(desk.root, "workspace.toml"), "a", encoding="utf-8") as file:
        file.write('\n[units]\ndistance = "m"\nspeed = "km/h"\n')


@pytest.mark.parametrize("metric", [False, True])
def test_shell_screen_and_sheet_carry_the_same_sentences(tried: Tried, anywhere: Run, metric: bool) -> None:
    if metric:
        in_metres(tried.desk)
    shown = presented(tried)
    shell = plain(anywhere("-w", tried.desk.root, "compare", "mo", tried.session).out)
    screen = plain(on_screen(tried.desk, tried.ref))
    sheet = plain(render(verdict.document(verdict_sheets(tried.desk, "mo", tried.ref)), "text", 2000))
    assert len(shown.standings) == 3
    assert {each.kind for each in shown.sections} >= {"compared", "limits", "days", "computed", "with_all"}
    for where in (shell, screen, sheet):
        for one in shown.standings:
            assert one.criterion in where
            assert one.measure in where
            assert one.advice in where
        for section in shown.sections:
            assert section.heading in where.casefold() or section.kind == LIMITS
            for sentence in section.sentences:
                assert plain(sentence) in where, (section.kind, sentence)
    assert not metric or not re.search(r"\d (yd|mph)\b", shell.replace("looks odd", "\n"))


def test_a_metric_player_is_asked_in_metres_before_the_first_shot(tried: Tried, anywhere: Run) -> None:
    in_metres(tried.desk)
    started = anywhere("-w", tried.desk.root, "test", "mo", "7i", "--criterion", "carry_yd:at_least=160", "--json")
    ref = str(started.json["ref"])
    session = ref.partition("#")[0]
    sheet = render(verdict.document(verdict_sheets(tried.desk, "mo", ref)), "text", 200)
    for where in (anywhere("-w", tried.desk.root, "compare", "mo", session).out, on_screen(tried.desk, ref), sheet):
        assert "carry at least 146.3 m" in where
        assert "160 yd" not in where


def test_a_changed_criterion_keeps_its_kind_and_its_unit(tried: Tried, anywhere: Run) -> None:
    wanted = [{"metric": "carry_yd", "at_least": 160.0}]
    ref = setup.start_test(tried.desk, "mo", "7i", values={"loft_deg": 32.0}, criteria=wanted).ref
    shots.add_shots(tried.desk, "mo", ref, [{"carry_yd": 158.0}])
    changed = ("criteria", "mo", ref, "carry_yd:gain_at_least=4", "--reason", "too low")
    assert anywhere("-w", tried.desk.root, *changed).status == 0
    found = assessment(tried.desk, "mo", ref)
    shown = present_evidence(found, context_of(tried.desk, "mo", found))
    for line in (shown.criteria_changed[-1], anywhere("-w", tried.desk.root, "history", "mo").out):
        assert "carry at least 160 yd" in line
        assert "carry at least 4 yd above the reference" in line
