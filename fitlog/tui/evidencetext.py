"""The evidence of one test in lines: criteria first, then the comparison, then what limits both."""

from typing import TYPE_CHECKING

from textual.content import Content

from fitlog.records.session import LIMITS, ClubTest, Criterion
from fitlog.records.words import label, number, setup_text
from fitlog.tui.numbers import mean_and_spread
from fitlog.tui.safe import safe
from fitlog.tui.units import Units
from fitlog.tui.widgets.pad import heading, line

if TYPE_CHECKING:
    from fitlog.actions.evidence import Evidence
    from fitlog.evidence.findings import Assessment, Findings

_OUTCOMES = {"met": ("✓ met", "$ink-good"), "missed": ("✗ missed", "$ink-bad"), "cannot tell": ("? cannot tell", "$ink-warn")}
_LIMIT_WORDS = {
    "at_least": "at least", "at_most": "at most", "within": "bias within", "spread_at_most": "spread at most",
    "gain_at_least": "gain on the reference at least", "same_within": "same as the reference within",
}  # fmt: skip


def evidence_lines(evidence: "Evidence", units: Units, width: int) -> list[Content]:
    """All that a person reads before deciding."""
    test, reference = evidence.test, evidence.reference
    out = [
        heading(f"{safe(test.slot)} candidate {test.id}"),
        line(("differs   ", "$ink-muted"), (safe(evidence.setup_said), "bold")),
        line(("reference ", "$ink-muted"), safe(setup_text(reference.raw.get("setup", {}))) if reference else ("none was hit", "$ink-warn")),
        line(""),
        heading("criteria", "set before the test"),
        *_criteria(evidence),
        line(""),
        *_table(test, reference, units),
    ]
    if evidence.found is not None:
        out += _findings(evidence.found)
    return out


def _criteria(evidence: "Evidence") -> list[Content]:
    found = evidence.found
    if not evidence.test.criteria:
        return [line(("none was set for this test", "$ink-muted"))]
    if found is None:
        return [line(("– ", "$ink-muted"), criterion_said(each)) for each in evidence.test.criteria]
    out = []
    for judged in found.without.criteria:
        mark, style = _OUTCOMES[judged.outcome]
        out.append(line((f"{mark:<14}", f"bold {style}"), safe(str(judged.criterion))))
        out.append(line(" " * 14, (safe(judged.sentence), "$ink-muted")))
        if judged.advice and judged.advice not in judged.sentence:
            out.append(line(" " * 14, (safe(judged.advice), "$ink-warn")))
    return out


def criterion_said(each: Criterion) -> str:
    """A criterion in words, before there is a shot."""
    for name in LIMITS:
        if (limit := getattr(each, name)) is not None:
            return f"{label(each.metric)} {_LIMIT_WORDS[name]} {number(limit)}"
    return label(each.metric)


def _table(test: ClubTest, reference: ClubTest | None, units: Units) -> list[Content]:
    from fitlog.records.session import MEASURES

    used = [key for key in MEASURES if any(getattr(shot, key) is not None for shot in test.shots)]
    if not used:
        return [line(("no shot was hit", "$ink-warn"))]
    base = reference.counted if reference else ()
    rows = [("", "candidate", "reference"), ("shots", _count(test), _count(reference) if reference else "–")]
    for key in used:
        name = f"{label(key)} {units.name(key)}".strip()
        rows.append((name, mean_and_spread(test.counted, key, units), mean_and_spread(base, key, units)))
    out = []
    for number_, (name, ours, theirs) in enumerate(rows):
        style = "$ink-muted" if number_ == 0 else ""
        out.append(line((f"{name:<18} ", "$ink-muted"), (f"{ours:<18} ", style or "bold"), (theirs, style)))
    return [heading("mean ± spread"), *out]


def _count(test: ClubTest) -> str:
    out = len(test.shots) - len(test.counted)
    return f"{len(test.counted)}" + (f" (+{out} left out)" if out else "")


def _findings(found: "Assessment") -> list[Content]:
    out = [line(""), heading("against the reference")] if found.sentences else []
    out += [line(("· ", "$ink-muted"), safe(each)) for each in found.sentences]
    if found.shape is not None:
        out.append(line(("· ", "$ink-muted"), safe(str(found.shape))))
    limits = [*found.limits, *(each.sentence for each in found.drifts), *(f"perhaps a mishit: {each.sentence}" for each in found.mishits)]
    if limits:
        out += [line(""), heading("limits")]
        out += [line(("! ", "$ink-warn"), safe(each)) for each in dict.fromkeys(limits)]
    if found.with_all is not None:
        out += [line(""), heading("with the shots that were left out")]
        out += _with_all(found.with_all)
    return out


def _with_all(found: "Findings") -> list[Content]:
    out = [line(("· ", "$ink-muted"), safe(each.sentence)) for each in found.compared.values()]
    out += [line(("· ", "$ink-muted"), f"{safe(str(each.criterion))}: {each.outcome}") for each in found.criteria]
    return out
