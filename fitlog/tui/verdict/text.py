"""The evidence of one test in lines: criteria first, then the comparison, then what limits both."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from textual.content import Content

from fitlog.records.session import ClubTest
from fitlog.records.words import describe_setup
from fitlog.tui.text.numbers import counted_said, head_of, mean_and_spread, series_of
from fitlog.tui.text.outcomes import OUTCOMES
from fitlog.tui.text.sanitize import safe, wrap
from fitlog.tui.text.units import Units
from fitlog.tui.widgets.scroll_text import Piece, bullet, heading, line

if TYPE_CHECKING:
    from fitlog.evidence.findings import Assessment
    from fitlog.records.session import Verdict
    from fitlog.views.verdict.context import EvidenceContext
    from fitlog.views.verdict.evidence import Evidence
    from fitlog.views.verdict.preview import Offer

ABOUT = (
    "Left what the test had to show and what its shots say; right what the verdict will change.",
    "k keeps, x rejects, a asks for a retest; then the reason, then Enter. Nothing is saved before Enter.",
    "The numbers show their limits; the decision is yours. j writes the verdict sheet into a file.",
    "z on a test that is decided: everything as it was when its verdict was given, read only.",
    "Right of target is positive for every player; draw and fade are named by the player's hand.",
)

_HANG = 14


def evidence_lines(
    evidence: "Evidence", beside: "EvidenceContext | None", units: Units, width: int, picture: Sequence[Content] = ()
) -> list[Content]:
    """All that a person reads before deciding; ``picture`` stands in it where it has no place of its own."""
    test, reference, found = evidence.test, evidence.reference, evidence.assessment
    compared = _named("reference", _reference_said(reference, units), width, "" if reference else "bold $ink-warn")
    differs = _named("differs", evidence.setup, width, "bold")
    has_reference = reference is not None and bool(reference.shots)
    out = [
        heading(f"{safe(test.slot)} candidate {test.id}"),
        *([*differs, *compared] if has_reference else [*compared, *differs]),
        line(""),
        *_criteria(evidence, beside.criteria_changed if beside else (), width),
    ]
    if evidence.hidden:
        return [*out, line(""), *_bullets("·", "$ink-accent", [evidence.hidden], width)]
    if found is not None:
        out += [*_against(found, units, width), *_off_centre(found, width), *_limits(found, beside, width)]
    if beside and beside.other_days:
        out += _bullets("·", "$ink-accent", [beside.other_days], width)
    if beside and (said := beside.prediction.sentences):
        out += [line(""), heading("predicted, and seen"), *_bullets("·", "$ink-accent", said, width)]
    out += [line(""), *picture] if picture else []
    out += [line(""), *_table(test, reference, units)]
    flown = [*filter(None, [beside.loft]), *beside.flights.sentences] if beside else []
    if flown:
        out += [line(""), heading("computed, not measured"), *_bullets("≈", "$ink-muted", flown, width)]
    return out + (_with_all(found, width) if found is not None else [])


def landing_of(evidence: "Evidence", units: Units, width: int, height: int) -> list[Content]:
    """Where the reference's and the candidate's shots came down."""
    from fitlog.evidence.picture import Series
    from fitlog.tui.widgets.shot_plot import MARKS, landing

    base = evidence.reference
    if evidence.hidden:
        return []
    series = [series_of("reference", base.shots, units) if base else Series("reference", ())]
    series.append(series_of(evidence.test.id, evidence.test.shots, units))
    if not any(one.points for one in series):
        return []
    marks = f"{MARKS[0]} reference  {MARKS[1]} candidate" if base else f"{MARKS[1]} candidate"
    return [heading("where they landed", marks), *landing(series, width, height - 1, units.unit("carry_yd"), 1)]


def _named(name: str, said: str, width: int, style: str) -> list[Content]:
    first, *more = wrap(safe(said), max(width - 10, 20))
    out = [line((f"{name:<10}", "$ink-muted"), (first, style))]
    return out + [line(" " * 10, (each, style)) for each in more]


def _reference_said(reference: ClubTest | None, units: Units) -> str:
    if reference is None:
        return "none was hit: there is nothing to compare with"
    setup = describe_setup(reference.raw.get("setup", {}), units)
    return setup if reference.shots else f"{setup}: no shot was hit with it, so there is nothing to compare with"


def _criteria(evidence: "Evidence", changed: Sequence[str], width: int) -> list[Content]:
    found = evidence.assessment
    late = _bullets("!", "bold $ink-warn", (f"changed after shots were hit, {each}" for each in changed), width)
    out = [heading("criteria", "" if changed or not evidence.test.criteria else "set before the test"), *late]
    if not evidence.test.criteria:
        return [
            *out,
            line(
                ("none was set for this test; ", "$ink-muted"),
                ("*", "bold $ink-accent"),
                (" sets some", "$ink-muted"),
            ),
        ]
    if found is None:
        return [*out, *(line(("– ", "$ink-muted"), safe(judged.said)) for judged in evidence.criteria)]
    for judged in found.without.criteria:
        mark, style = OUTCOMES[judged.outcome]
        said = judged.sentence.removeprefix(judged.said).removeprefix(f": {judged.outcome}").lstrip(";: ")
        out.append(line((f"{mark:<{_HANG}}", f"bold {style}"), (safe(judged.said), "bold")))
        out += _hung(said, width, "$ink-muted")
        if judged.advice and judged.advice not in said:
            out += _hung(judged.advice, width, "$ink-warn")
    return out


def _hung(text: str, width: int, style: str) -> list[Content]:
    return [line(" " * _HANG, (each, style)) for each in wrap(safe(text), max(width - _HANG, 20))]


def _bullets(mark: str, mark_style: str, texts: Iterable[str], width: int, style: str = "") -> list[Content]:
    return [each for text in texts for each in bullet(mark, mark_style, text, style, width)]


def _table(test: ClubTest, reference: ClubTest | None, units: Units) -> list[Content]:
    from fitlog.records.session import MEASURES

    used = [key for key in MEASURES if any(getattr(shot, key) is not None for shot in test.shots)]
    if not used:
        return [line(("no shot was hit", "$ink-warn"))]
    base = reference.shots if reference else ()
    columns = [("candidate", test.counted), ("reference", reference.counted if reference else ())]
    columns += [
        (f"all {len(shots)} {name}", shots)
        for name, shots in (("shots", test.shots), ("of it", base))
        if any(shot.excluded for shot in shots)
    ]
    out = [heading("mean ± spread"), _numbers("", [name for name, _ in columns], "$ink-muted")]
    out.append(_numbers("shots", [counted_said(test.shots), counted_said(base) if reference else "–"]))
    return out + [
        _numbers(head_of(key, units), [mean_and_spread(shots, key, units) for _, shots in columns]) for key in used
    ]


def _numbers(name: str, cells: Sequence[str], style: str = "") -> Content:
    pieces: list[Piece] = [(f"{name:<12} ", "$ink-muted")]
    pieces += [(f"{cell:<18} ", style or ("bold" if place == 0 else "")) for place, cell in enumerate(cells)]
    return line(*pieces)


def _against(found: "Assessment", units: Units, width: int) -> list[Content]:
    """What differs from the reference, largest first, then the rest in a line, then patterns and spreads."""
    from fitlog.evidence.sentences import pattern_sentence, spread_sentences

    lines = [*found.sentences, *(str(each) for each in (found.shape, found.strikes) if each is not None)]
    if (pattern := found.without.pattern) is not None:
        lines.append(pattern_sentence(pattern, units))
    lines += spread_sentences(found.without.compared, units)
    if not lines:
        return []
    return [line(""), heading("against the reference"), *_bullets("·", "$ink-accent", lines, width)]


def _off_centre(found: "Assessment", width: int) -> list[Content]:
    """What strikes off-centre strikes cost, where they were noted."""
    said = _bullets("·", "$ink-accent", found.without.off_centre_said, width)
    return [line(""), heading("off-centre strikes"), *said] if said else []


def _limits(found: "Assessment", beside: "EvidenceContext | None", width: int) -> list[Content]:
    moving = [each.sentence for each in found.drifts if each.over_session.tells]
    mishits = [f"perhaps a mishit: {each.sentence}" for each in found.mishits]
    odd = [f"looks odd: {each}" for each in beside.odd] if beside else []
    weighty = list(dict.fromkeys([*found.limits, *moving, *mishits, *odd]))
    calm = [each.sentence for each in found.drifts if not each.over_session.tells]
    if not weighty and not calm:
        return []
    out = [line(""), heading("limits of this evidence"), *_bullets("!", "bold $ink-warn", weighty, width)]
    return out + _bullets("·", "$ink-muted", calm, width, "$ink-muted")


def _with_all(found: "Assessment", width: int) -> list[Content]:
    if found.with_all is None:
        return []
    all_in = [f"{each.criterion}: {each.outcome}" for each in found.with_all.criteria]
    all_in += [each.sentence for each in found.with_all.compared.values()]
    said = _bullets("·", "$ink-muted", all_in, width)
    return [line(""), heading("counting the shots left out"), *said]


# what a decision changes


def choice_lines(given: "Verdict | None", width: int) -> list[Content]:
    """Before anything is chosen."""
    out = [line(("choose; what it changes is shown here before anything is saved", "$ink-muted"))]
    said = f"decided already: {given.decision}, {given.reason}" if given else ""
    return out + (bullet("!", "$ink-warn", said, "", width) if said else [])


def _hanging(text: str, width: int) -> list[str]:
    """A text in rows, those after the first a little further in."""
    first, *more = wrap(safe(text), width)
    return [first, *(f"  {each}" for row in more for each in wrap(row, width - 2))]


def offer_lines(offer: "Offer", test: str, width: int) -> list[Content]:
    """What the decision that is chosen will change, and where it and the evidence disagree."""
    out = [heading("this will change")]
    if offer.trouble:
        out += bullet("!", "bold $ink-bad", offer.trouble, "bold $ink-bad", width)
    elif offer.bag:
        for each in offer.bag:
            parts = each.text.split("; ")
            rows = [row for part in parts for row in _hanging(part, max(width - _HANG, 16))]
            out.append(line(("bag   ", "$ink-muted"), (f"{safe(each.place):<7} ", "bold $ink-accent"), rows[0]))
            out += [line(" " * _HANG, row) for row in rows[1:]]
    else:
        out.append(line(("bag   ", "$ink-muted"), "stays as it is"))
    out.append(line(("test  ", "$ink-muted"), f"{test} is marked {offer.decision}, with the reason"))
    return out + [each for said in offer.warnings for each in bullet("!", "bold $ink-warn", said, "", width)]
