"""The evidence of one test in lines: criteria, comparison, limits."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from textual.content import Content

from fitlog.records.models.session import ClubTest
from fitlog.tui.text.numbers import format_counts, head_of, mean_and_spread, series_of
from fitlog.tui.text.outcomes import OUTCOMES
from fitlog.tui.text.sanitize import safe, wrap
from fitlog.tui.text.units import Units
from fitlog.tui.widgets.scroll_text import Piece, bullet, heading, line
from fitlog.views.evidence.presentation import BLIND, COMPUTED, LIMITS, NO_CRITERION, WITH_ALL

if TYPE_CHECKING:
    from fitlog.records.models.session import Verdict
    from fitlog.views.evidence.presentation import Presentation, Section
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
    presentation: "Presentation", numbers: Sequence[Content], width: int, picture: Sequence[Content] = ()
) -> list[Content]:
    """All to read before deciding; ``picture`` where it has no other place."""
    reference = _labelled_rows(
        "reference", presentation.reference, width, "" if presentation.has_reference else "bold $ink-warn"
    )
    differs = _labelled_rows("differs", presentation.setup, width, "bold")
    out = [
        heading(f"{safe(presentation.slot)} {presentation.name}"),
        *([*differs, *reference] if presentation.has_reference else [*reference, *differs]),
        *_labelled_rows("shots", presentation.shots, width, ""),
        line(""),
        *([] if presentation.name == BLIND else _criteria(presentation, width)),
    ]
    if presentation.hidden:
        return [*out, line(""), *_bullets("·", "$ink-accent", [presentation.hidden], width)]
    before, after = _split_sections(presentation.sections)
    out += [each for section in before for each in _section(section, width)]
    out += [line(""), *picture] if picture else []
    out += [line(""), *numbers]
    return out + [each for section in after for each in _section(section, width)]


def _split_sections(sections: "Sequence[Section]") -> "tuple[list[Section], list[Section]]":
    """What stands before the table of numbers, and what behind it."""
    behind = (COMPUTED, WITH_ALL)
    return [each for each in sections if each.kind not in behind], [each for each in sections if each.kind in behind]


_MARKS = {LIMITS: ("!", "bold $ink-warn"), COMPUTED: ("≈", "$ink-muted"), WITH_ALL: ("·", "$ink-muted")}


def _section(section: "Section", width: int) -> list[Content]:
    mark, style = _MARKS.get(section.kind, ("·", "$ink-accent"))
    return [line(""), heading(section.heading), *_bullets(mark, style, section.sentences, width)]


def landing_lines(evidence: "Evidence", units: Units, width: int, height: int) -> list[Content]:
    """Where the reference's and the candidate's shots came down."""
    from fitlog.evidence.pattern.picture import Series
    from fitlog.tui.widgets.shot_plot import MARKS, plot_landings

    base = evidence.reference
    if evidence.hidden:
        return []
    series = [series_of("reference", base.shots, units) if base else Series("reference", ())]
    series.append(series_of(evidence.test.id, evidence.test.shots, units))
    if not any(one.points for one in series):
        return []
    marks = f"{MARKS[0]} reference  {MARKS[1]} candidate" if base else f"{MARKS[1]} candidate"
    return [heading("where they landed", marks), *plot_landings(series, width, height - 1, units.unit("carry_yd"), 1)]


def _labelled_rows(name: str, text: str, width: int, style: str) -> list[Content]:
    first, *more = wrap(safe(text), max(width - 10, 20))
    out = [line((f"{name:<10}", "$ink-muted"), (first, style))]
    return out + [line(" " * 10, (each, style)) for each in more]


def _criteria(presentation: "Presentation", width: int) -> list[Content]:
    late = _bullets("!", "bold $ink-warn", presentation.criteria_changed, width)
    out = [heading("criteria", "set before the test" if presentation.standings and not late else ""), *late]
    if not presentation.standings:
        return [
            *out,
            line((f"{NO_CRITERION}; ", "$ink-muted"), ("*", "bold $ink-accent"), (" sets some", "$ink-muted")),
        ]
    for each in presentation.standings:
        mark, style = OUTCOMES[each.outcome]
        out.append(line((f"{mark:<{_HANG}}", f"bold {style}"), (safe(each.criterion), "bold")))
        out += _indented_rows(each.result, width, "$ink-muted")
    return out


def _indented_rows(text: str, width: int, style: str) -> list[Content]:
    return [line(" " * _HANG, (each, style)) for each in wrap(safe(text), max(width - _HANG, 20))]


def _bullets(mark: str, mark_style: str, texts: Iterable[str], width: int, style: str = "") -> list[Content]:
    return [each for text in texts for each in bullet(mark, mark_style, text, style, width)]


def number_lines(test: ClubTest, reference: ClubTest | None, units: Units) -> list[Content]:
    """Mean and spread of each quantity, without and with the shots left out."""
    from fitlog.records.models.session import MEASURES

    used = [key for key in MEASURES if any(getattr(shot, key) is not None for shot in test.shots)]
    if not used:
        return [line(("no shot was hit", "$ink-warn"))]
    base = reference.shots if reference else ()
    columns = [("candidate", test.counted_shots), ("reference", reference.counted_shots if reference else ())]
    columns += [
        (f"all {len(shots)} {name}", shots)
        for name, shots in (("shots", test.shots), ("of it", base))
        if any(shot.excluded for shot in shots)
    ]
    out = [heading("mean ± spread"), _numbers("", [name for name, _ in columns], "$ink-muted")]
    out.append(_numbers("shots", [format_counts(test.shots), format_counts(base) if reference else "–"]))
    return out + [
        _numbers(head_of(key, units), [mean_and_spread(shots, key, units) for _, shots in columns]) for key in used
    ]


def _numbers(name: str, cells: Sequence[str], style: str = "") -> Content:
    pieces: list[Piece] = [(f"{name:<12} ", "$ink-muted")]
    pieces += [(f"{cell:<18} ", style or ("bold" if place == 0 else "")) for place, cell in enumerate(cells)]
    return line(*pieces)


# what a decision changes


def choice_lines(verdict: "Verdict | None", width: int) -> list[Content]:
    """Before anything is chosen."""
    out = [line(("choose; what it changes is shown here before anything is saved", "$ink-muted"))]
    if verdict is None:
        return out
    return out + bullet("!", "$ink-warn", f"decided already: {verdict.decision}, {verdict.reason}", "", width)


def _hanging_rows(text: str, width: int) -> list[str]:
    """A text in rows, those after the first a little further in."""
    first, *more = wrap(safe(text), width)
    return [first, *(f"  {each}" for row in more for each in wrap(row, width - 2))]


def offer_lines(offer: "Offer", width: int) -> list[Content]:
    """What the chosen decision will change, and where evidence disagrees."""
    out = [heading("this will change")]
    if offer.trouble:
        out += bullet("!", "bold $ink-bad", offer.trouble, "bold $ink-bad", width)
    elif offer.bag:
        for each in offer.bag:
            parts = each.text.split("; ")
            rows = [row for part in parts for row in _hanging_rows(part, max(width - _HANG, 16))]
            out.append(line(("bag   ", "$ink-muted"), (f"{safe(each.place):<7} ", "bold $ink-accent"), rows[0]))
            out += [line(" " * _HANG, row) for row in rows[1:]]
    else:
        out.append(line(("bag   ", "$ink-muted"), "stays as it is"))
    out.append(line(("test  ", "$ink-muted"), f"marked {offer.decision}, with the reason"))
    return out + _bullets("!", "bold $ink-warn", offer.warnings, width)
