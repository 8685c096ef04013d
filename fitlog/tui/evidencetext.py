"""The evidence of one test in lines: criteria first, then the comparison, then what limits both."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.content import Content

from fitlog.records.session import LIMITS, ClubTest, Criterion
from fitlog.records.words import label, number, setup_text
from fitlog.tui.numbers import mean_and_spread
from fitlog.tui.safe import safe, wrap
from fitlog.tui.units import Units
from fitlog.tui.widgets.pad import heading, line

if TYPE_CHECKING:
    from fitlog.actions.evidence import Evidence
    from fitlog.evidence.findings import Assessment

_HANG = 14
_OUTCOMES = {
    "met": ("✓ met", "$ink-good"),
    "missed": ("✗ missed", "$ink-bad"),
    "cannot tell": ("? cannot tell", "$ink-warn"),
}
_LIMIT_WORDS = {
    "at_least": "at least", "at_most": "at most", "within": "bias within", "spread_at_most": "spread at most",
    "gain_at_least": "gain on the reference at least", "gain_at_most": "gain on the reference at most",
    "same_within": "same as the reference within",
}  # fmt: skip


def evidence_lines(evidence: "Evidence", units: Units, width: int) -> list[Content]:
    """All that a person reads before deciding."""
    test, reference = evidence.test, evidence.reference
    out = [
        heading(f"{safe(test.slot)} candidate {test.id}"),
        line(("differs   ", "$ink-muted"), (safe(evidence.setup_said), "bold")),
        line(
            ("reference ", "$ink-muted"),
            safe(setup_text(reference.raw.get("setup", {}))) if reference else ("none was hit", "$ink-warn"),
        ),
        line(""),
        heading("criteria", "set before the test"),
        *_criteria(evidence, width),
        line(""),
        *_table(test, reference, units),
    ]
    if evidence.found is not None:
        out += _findings(evidence.found, width)
    return out


def _criteria(evidence: "Evidence", width: int) -> list[Content]:
    found = evidence.found
    if not evidence.test.criteria:
        return [line(("none was set for this test", "$ink-muted"))]
    if found is None:
        return [line(("– ", "$ink-muted"), criterion_said(each)) for each in evidence.test.criteria]
    out = []
    for judged in found.without.criteria:
        mark, style = _OUTCOMES[judged.outcome]
        said = judged.sentence.removeprefix(str(judged.criterion)).removeprefix(f": {judged.outcome}").lstrip(";: ")
        out.append(line((f"{mark:<{_HANG}}", f"bold {style}"), (safe(str(judged.criterion)), "bold")))
        out += _hung(said, width, "$ink-muted")
        if judged.advice and judged.advice not in said:
            out += _hung(judged.advice, width, "$ink-warn")
    return out


def _hung(text: str, width: int, style: str) -> list[Content]:
    return [line(" " * _HANG, (each, style)) for each in wrap(safe(text), max(width - _HANG, 20))]


def _bullets(mark: str, style: str, texts: Iterable[str], width: int) -> list[Content]:
    """Each text after its mark, further rows of it under its first."""
    out = []
    for text in texts:
        first, *more = wrap(safe(text), max(width - 2, 20))
        out.append(line((mark + " ", style), first))
        out += [line("  ", each) for each in more]
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


def _findings(found: "Assessment", width: int) -> list[Content]:
    said = [*found.sentences, *([str(found.shape)] if found.shape is not None else [])]
    out = [line(""), heading("against the reference"), *_bullets("·", "$ink-muted", said, width)] if said else []
    moving = [each.sentence for each in found.drifts if each.over_session.tells]
    mishits = [f"perhaps a mishit: {each.sentence}" for each in found.mishits]
    limits = list(dict.fromkeys([*found.limits, *moving, *mishits]))
    calm = [each.sentence for each in found.drifts if not each.over_session.tells]
    if limits or calm:
        out += [line(""), heading("limits"), *_bullets("!", "bold $ink-warn", limits, width)]
        out += _bullets("·", "$ink-muted", calm, width)
    if found.with_all is not None:
        all_in = [each.sentence for each in found.with_all.compared.values()]
        all_in += [f"{each.criterion}: {each.outcome}" for each in found.with_all.criteria]
        out += [line(""), heading("with the shots that were left out"), *_bullets("·", "$ink-muted", all_in, width)]
    return out
