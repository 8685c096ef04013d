"""What the page shows, as plain values, with nothing private and no id."""

from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from fitlog.evidence.pattern.dispersion import cloud, dispersion_of
from fitlog.evidence.pattern.picture import SHAPES, Series, landing_scene
from fitlog.evidence.shots.quantities import QUANTITIES
from fitlog.records.errors import FitlogError, Refusal
from fitlog.records.models.session import CANDIDATE, REFERENCE, ClubTest, Session, Shot
from fitlog.records.wording.glossary import shot_heading
from fitlog.report.sheets.club_words import club_words, slot_name
from fitlog.report.sheets.values import Units
from fitlog.saving.desk import Desk
from fitlog.views.evidence.effects import format_effect
from fitlog.views.evidence.standings import OUTCOMES
from fitlog.views.session.blind import hidden_in
from fitlog.views.session.columns import columns_of
from fitlog.views.session.overview import session_overview
from fitlog.views.verdict.evidence import Evidence, assessment

_HIDDEN_MARK = "·"
_ROWS = 12
_MOST_COLUMNS = 10
_LETTERS = "ABCDEFGH"
_LARGE = ("carry_yd", "offline_yd")
_METRICS = ("carry_yd", "offline_yd", "peak_height_yd", "descent_deg", "ball_speed_mph", "spin_rpm")


class Club(NamedTuple):
    """One club on the page: its test, its name, and its place among the colours.

    ``is_hidden``: its shots are told only when the planned number is hit.
    """

    test: ClubTest
    name: str
    words: str
    series: int
    is_hidden: bool = False


def page_state(desk: Desk, player: str, blind: bool = False) -> dict[str, Any]:
    """The session of today, else the latest: the slot hit last, clubs and shots.

    The criteria are in it too.

    ``blind`` calls every club by a number and tells no setup and which is the reference. A planned test shows no
    outcome before its shots are hit, and a blind plan calls its clubs by their codes until then. Raises nothing for a
    broken file: the page then says that it waits.
    """
    units = Units(desk.workspace.settings_at_hand().units)
    try:
        found = session_overview(desk, player)
        name = desk.workspace.player(player).name
    except FitlogError:
        return {"waiting": "The session's file cannot be read just now."}
    if found is None or not found.record.test:
        return {"title": name, "waiting": "No test has begun yet."}
    session = found.record
    test = _current(session)
    clubs = _clubs(session, test, blind)
    columns = columns_of(session, test)[:_MOST_COLUMNS]
    evidence = _evidence(desk, player, found.name, clubs)
    slot = slot_name(test.slot)
    return {
        "title": slot[:1].upper() + slot[1:] + ("" if test.is_full else f", {test.swing_name} swing"),
        "subtitle": " · ".join(filter(None, (name, session.date.isoformat(), session.place or ""))),
        "unit": units.symbol("carry_yd"),
        "clubs": [_club(each, units, blind) for each in clubs],
        "last": _last(clubs, columns, units),
        "picture": _picture(clubs, units),
        "columns": [units.column_head(key, shot_heading(key, QUANTITIES[key].label)) for key in columns],
        "shots": _shots(clubs, columns, units),
        "criteria": [] if blind else [row for each in evidence for row in _criteria(*each)],
        "differences": [] if blind else [row for each in evidence for row in _differences(*each, units)],
    }


def _current(session: Session) -> ClubTest:
    """The test that was hit last, else the last one set up."""
    hit = _latest_first(session.test)
    return hit[0].test if hit else session.test[-1]


class _Shot(NamedTuple):
    """One shot: ``place`` of its test among those asked for, ``number`` from 1."""

    place: int
    number: int
    test: ClubTest
    shot: Shot


def _latest_first(tests: Sequence[ClubTest]) -> list[_Shot]:
    """Every shot of the tests, the latest first.

    Of shots of one second, or without a time, the later in the list is the latest.
    """
    hits = [
        _Shot(place, number, test, shot)
        for place, test in enumerate(tests)
        for number, shot in enumerate(test.shots, 1)
    ]
    return sorted(hits, key=lambda hit: (str(hit.shot.at or ""), hit.place, hit.number), reverse=True)


def _clubs(session: Session, test: ClubTest, blind: bool) -> list[Club]:
    """The clubs of the slot and swing that is hit, reference first.

    Blind ones by number or code, in their order.
    """
    alike = [each for each in session.tests_of(test.slot) if each.swing_name == test.swing_name]
    hidden = hidden_in(session)
    if any(hidden.name(each.id) for each in alike):
        ordered = sorted(alike, key=lambda each: hidden.name(each.id))
        named = [(each, hidden.name(each.id) or f"club {each.id}") for each in ordered]
        found = [Club(each, name[:1].upper() + name[1:], "", place) for place, (each, name) in enumerate(named)]
    elif blind:
        ordered = sorted(alike, key=lambda each: each.id)
        found = [Club(each, f"Club {place + 1}", "", place) for place, each in enumerate(ordered)]
    else:
        found = _named_clubs(alike)
    return [each._replace(is_hidden=hidden.has(each.test.id)) for each in found]


def _named_clubs(alike: Sequence[ClubTest]) -> list[Club]:
    references = [each for each in alike if each.role == REFERENCE]
    candidates = [each for each in alike if each.role == CANDIDATE]
    out = [Club(each, "Reference", _words(each), 0) for each in references]
    for place, each in enumerate(candidates):
        name = "Candidate" if len(candidates) == 1 else f"Candidate {_LETTERS[place % len(_LETTERS)]}"
        out.append(Club(each, name, _words(each), place + 1))
    return out


def _words(test: ClubTest) -> str:
    return club_words(test.raw.get("setup", {}))


def _evidence(desk: Desk, player: str, session: str, clubs: Sequence[Club]) -> list[tuple[Club, Evidence]]:
    out = []
    for each in clubs:
        if each.test.role == CANDIDATE and not each.is_hidden:
            try:
                out.append((each, assessment(desk, player, f"{session}#{each.test.id}")))
            except FitlogError:
                continue
    return out


def _club(club: Club, units: Units, blind: bool) -> dict[str, Any]:
    carries = [shot.carry_yd for shot in club.test.counted_shots if shot.carry_yd is not None]
    mean = f"{units.convert('carry_yd', sum(carries) / len(carries)):.0f}" if carries else "–"
    if club.is_hidden:
        mean = _HIDDEN_MARK
    return {
        "name": club.name,
        "words": "" if blind else club.words,
        "series": min(club.series, len(SHAPES) - 1),
        "shots": len(club.test.counted_shots),
        "carry": mean,
    }


def _last(clubs: Sequence[Club], columns: Sequence[str], units: Units) -> dict[str, Any] | None:
    """The shot hit last, large."""
    hits = _latest_first([club.test for club in clubs])
    if not hits:
        return None
    club, shot = clubs[hits[0].place], hits[0].shot
    values = [
        {
            "label": shot_heading(key, QUANTITIES[key].label),
            "value": _value(shot, key, units),
            "unit": units.symbol(key),
        }
        for key in sorted(columns, key=lambda key: (key not in _LARGE, _LARGE.index(key) if key in _LARGE else 0))
        if getattr(shot, key) is not None and not club.is_hidden
    ]
    return {"club": club.name, "number": hits[0].number, "out": bool(shot.excluded), "values": values}


def _value(shot: Shot, key: str, units: Units) -> str:
    return units.format_number(key, getattr(shot, key))


def _shots(clubs: Sequence[Club], columns: Sequence[str], units: Units) -> list[dict[str, Any]]:
    """The latest shots of all clubs, newest first."""
    hits = _latest_first([club.test for club in clubs])[:_ROWS]
    return [_row(clubs[hit.place], hit, columns, units) for hit in hits]


def _row(club: Club, shot: _Shot, columns: Sequence[str], units: Units) -> dict[str, Any]:
    return {
        "club": club.name,
        "series": min(club.series, len(SHAPES) - 1),
        "number": shot.number,
        "out": bool(shot.shot.excluded),
        "values": [_HIDDEN_MARK if club.is_hidden else _value(shot.shot, key, units) for key in columns],
    }


def _picture(clubs: Sequence[Club], units: Units) -> Mapping[str, Any] | None:
    series = [_series(club, units) for club in clubs[: len(SHAPES)] if not club.is_hidden]
    try:
        scene = landing_scene(series)
    except Refusal:
        return None
    return scene._asdict() | {
        "strokes": [each._asdict() for each in scene.strokes],
        "marks": [each._asdict() for each in scene.marks],
    }


def _series(club: Club, units: Units) -> Series:
    counted: list[tuple[float, float]] = []
    out: list[tuple[float, float]] = []
    for shot in club.test.shots:
        if shot.carry_yd is not None and shot.offline_yd is not None:
            point = (units.convert("offline_yd", shot.offline_yd), units.convert("carry_yd", shot.carry_yd))
            (out if shot.excluded else counted).append(point)
    found = dispersion_of(cloud([x for x, _ in counted], [y for _, y in counted])) if len(counted) >= 5 else None
    return Series(club.name, counted, out, found)


def _criteria(club: Club, evidence: Evidence) -> list[dict[str, str]]:
    return [
        {"club": club.name, "text": one.text, "outcome": OUTCOMES[one.outcome][0], "tone": OUTCOMES[one.outcome][1]}
        for one in evidence.criteria
    ]


def _differences(club: Club, evidence: Evidence, units: Units) -> list[dict[str, str]]:
    found = evidence.assessment
    if found is None:
        return []
    return [
        {
            "club": club.name,
            "label": QUANTITIES[key].label,
            "text": format_effect(key, found.without.compared[key].difference, units),
        }
        for key in _METRICS
        if key in found.without.compared
    ]
