"""What goes onto a verdict sheet, collected as plain values: one test, or all of a session, with the evidence."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from fitlog.actions.desk import Desk
from fitlog.actions.evidence import Evidence, compare, numbers, shot_values, warnings
from fitlog.records.bag import Ball
from fitlog.records.errors import Refusal
from fitlog.records.fields import flat
from fitlog.records.player import Player
from fitlog.records.session import CANDIDATE, AirRead, ClubTest, Session, Shot, ref
from fitlog.records.settings import Shown
from fitlog.workspace.layout import session_file

if TYPE_CHECKING:
    from fitlog.evidence.compare import Difference
    from fitlog.evidence.dispersion import Dispersion
    from fitlog.evidence.findings import Assessment
    from fitlog.evidence.summary import Both
    from fitlog.flight.air import Air
    from fitlog.flight.launch import Wind

# A standing day to compare carries on, where the workspace names none: stated on the sheet wherever it is used.
_REFERENCE_C, _REFERENCE_PA, _REFERENCE_PCT = 20.0, 101325.0, 50.0


class ShotRow(NamedTuple):
    """One shot, why it may be a mishit, and its carry in the reference air (computed)."""

    shot: Shot
    suspected: str
    normal_carry_yd: float | None


class Hit(NamedTuple):
    """One setup as hit: its test, its shots, its numbers and where they landed."""

    test: ClubTest
    rows: tuple[ShotRow, ...]
    summaries: Mapping[str, "Both"]
    landing: "Dispersion | None"

    @property
    def normal_carries(self) -> list[float]:
        """The carries in the reference air of the shots not left out."""
        return [row.normal_carry_yd for row in self.rows if row.normal_carry_yd is not None and not row.shot.excluded]


class VerdictSheet(NamedTuple):
    """All that a verdict sheet tells of one candidate. ``differs`` is set up in words, one each."""

    player_id: str
    player: Player
    shown: Shown
    session_id: str
    session: Session
    evidence: Evidence
    differs: tuple[str, ...]
    own: Hit
    base: Hit | None
    warnings: tuple[str, ...]
    since: tuple[str, ...]
    criteria_changed: tuple[str, ...]
    air: str
    normal_difference: "Difference | None"

    @property
    def ref(self) -> str:
        """The test's address."""
        return self.evidence.ref

    @property
    def found(self) -> "Assessment | None":
        """What the shots support."""
        return self.evidence.found


def verdict_sheets(desk: Desk, player: str, where: str) -> tuple[VerdictSheet, ...]:
    """The sheet of one test (``SESSION#TEST``), or one for each candidate of a session (``SESSION``).

    A test named without a session is looked for in the last one. Raises UsageError for what is not there, Refusal for
    a session without candidates.
    """
    player = desk.workspace.pick_player(player)
    if "#" in where:
        name, _, test = desk.workspace.pick_test(player, where)
        if test.role != CANDIDATE:
            raise Refusal(
                f"{ref(name, test.id)} is the reference, and a verdict is on a candidate",
                do="name a candidate, or leave the test out to see all candidates of the session",
            )
        chosen = [each for each in compare(desk, player, name, test.slot).tests if each.test.id == test.id]
    else:
        name = desk.workspace.pick_session(player, where)
        chosen = list(compare(desk, player, name).tests)
    if not chosen:
        raise Refusal(f"session {name} has no candidate yet", do="set one up with: fitlog test")
    return tuple(_verdict_sheet(desk, player, name, each) for each in chosen)


def _verdict_sheet(desk: Desk, player: str, name: str, evidence: Evidence) -> VerdictSheet:
    session = desk.workspace.session(player, name)
    settings = desk.workspace.settings()
    day = day_air(session.air)
    standing = day_air(settings.reference_air) or _standing_air()
    found, test, reference = evidence.found, evidence.test, evidence.reference
    normal = {each.id: _normal(each, day, standing, session.air) for each in (test, reference) if each}
    own = _hit(test, normal[test.id], found.summaries if found else {}, found.without.landing if found else None)
    base = None
    if reference is not None:
        landing = found.without.landing_reference if found else None
        base = _hit(reference, normal[reference.id], found.reference if found else {}, landing)
    decision = test.verdict.decision if test.verdict else ""
    return VerdictSheet(
        player,
        desk.workspace.player(player),
        settings.units,
        name,
        session,
        evidence,
        differs(test, reference),
        own,
        base,
        tuple(warnings(found, decision)) if decision else (),
        tuple(_since(test, found)),
        tuple(_criteria_changed(desk, player, evidence.ref)),
        _air_said(standing) if any(any(carries) for carries in normal.values()) else "",
        _normal_difference(own, base, found),
    )


def _hit(
    test: ClubTest, normal: Sequence[float | None], summaries: Mapping[str, "Both"], landing: "Dispersion | None"
) -> Hit:
    from fitlog.evidence.mishits import suggest

    suspected = {each.place: each.sentence for each in suggest([shot_values(shot) for shot in test.shots])}
    rows = [
        ShotRow(shot, suspected.get(n, ""), carry)
        for n, (shot, carry) in enumerate(zip(test.shots, normal, strict=True))
    ]
    return Hit(test, tuple(rows), summaries, landing)


def differs(test: ClubTest, reference: ClubTest | None) -> tuple[str, ...]:
    """The setup differences to the reference in words, one each; none without a reference."""
    from fitlog.records.words import change_text, changes

    if reference is None:
        return ()
    found = changes(reference.raw.get("setup", {}), test.raw.get("setup", {}))
    return tuple(change_text(each) for each in found if not each.key.endswith(".part"))


def _since(test: ClubTest, found: "Assessment | None") -> list[str]:
    """What the verdict rested on that reads otherwise today: a shot left out since, a later method."""
    verdict = test.raw.get("verdict", {})
    then = dict(flat(verdict.get("numbers", {}))) if test.verdict else {}
    if not then or found is None:
        return []
    now_table, method = numbers(found)
    now = dict(flat(now_table))
    said = [
        f"since the verdict {key.replace('.', ' of ').replace('_', ' ')} went from {then[key]} to {now[key]}"
        for key in then
        if key != "criteria" and key in now and now[key] != then[key]
    ]
    before, after = then.get("criteria", []), now.get("criteria", [])
    said += [f"at the verdict it was: {each}" for each in before if each not in after]
    if verdict.get("method") not in (None, method):
        said.append(f"the verdict was given with {verdict['method']}, these numbers are of {method}")
    return said


def _criteria_changed(desk: Desk, player: str, address: str) -> list[str]:
    """Changes of this test's criteria once shots had been hit, oldest first: they are to be seen as such."""
    name = session_file(player, address.partition("#")[0])
    return [
        f"{entry.when:%Y-%m-%d %H:%M}: {entry.subject} ({entry.reason})"
        for entry in reversed(desk.history.entries([name]))
        if entry.action == "criteria" and address in entry.evidence and ", after " in entry.subject
    ]


# the air


def day_air(read: AirRead) -> "Air | None":
    """The air from what was noted: temperature, and pressure or altitude. Humidity not noted is taken as 50 %."""
    if read.temperature_c is None or (read.pressure_hpa is None and read.altitude_m is None):
        return None
    from fitlog.flight.air import Air, air_at

    humidity = 50.0 if read.humidity_pct is None else read.humidity_pct
    try:
        if read.pressure_hpa is not None:
            return Air(read.temperature_c, read.pressure_hpa * 100, humidity)
        return air_at(read.altitude_m or 0.0, read.temperature_c, humidity)
    except Refusal:
        return None


def _standing_air() -> "Air":
    from fitlog.flight.air import Air

    return Air(_REFERENCE_C, _REFERENCE_PA, _REFERENCE_PCT)


def _air_said(air: "Air") -> str:
    return (
        f"{air.temperature_c:g} °C, {air.pressure_pa / 100:.0f} hPa, {air.humidity_pct:g} % humidity"
        f" ({air.density_kg_m3:.3f} kg/m³), calm"
    )


def _wind(read: AirRead) -> "Wind | None":
    from fitlog.flight.launch import CALM, Wind

    if not read.wind_mph:
        return CALM
    return None if read.wind_from_deg is None else Wind(read.wind_mph, read.wind_from_deg)


def _normal(test: ClubTest, day: "Air | None", standing: "Air", read: AirRead) -> list[float | None]:
    """Each shot's carry in the reference air; None where the air or the launch is not known."""
    wind = _wind(read) if day is not None else None
    if day is None or wind is None:
        return [None] * len(test.shots)
    return [_normal_carry(shot, day, standing, wind) for shot in test.shots]


def _normal_carry(shot: Shot, day: "Air", standing: "Air", wind: "Wind") -> float | None:
    from fitlog.flight.launch import Launch
    from fitlog.flight.normalise import normalise

    carry, speed, launch, spin = shot.carry_yd, shot.ball_speed_mph, shot.launch_deg, shot.spin_rpm
    if carry is None or speed is None or launch is None or spin is None:
        return None
    try:
        start = Launch(speed, launch, spin, shot.spin_axis_deg or 0.0, shot.direction_deg or 0.0)
        return normalise(carry, start, day, standing, wind)
    except Refusal:  # a shot that the model cannot fly stays as measured
        return None


def _normal_difference(own: Hit, base: Hit | None, found: "Assessment | None") -> "Difference | None":
    """The difference of the carries in the reference air, as sure as the other differences of the sheet."""
    from fitlog.evidence.compare import welch
    from fitlog.evidence.summary import moments

    carry = found.without.compared.get("carry_yd") if found else None
    if base is None or carry is None or min(len(own.normal_carries), len(base.normal_carries)) < 2:
        return None
    try:
        return welch(moments(own.normal_carries), moments(base.normal_carries), carry.difference.confidence)
    except Refusal:
        return None


def ball_said(ball: Ball) -> str:
    """The ball in words, or nothing."""
    return " ".join(str(each) for each in (ball.model, ball.year) if each)


def setup_values(test: ClubTest) -> dict[str, Any]:
    """The setup of a test as its file has it."""
    return dict(test.raw.get("setup", {}))
