"""session: a session's tests and shots, and its place, air, notes and columns."""

from argparse import ArgumentParser
from typing import TYPE_CHECKING

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.wording.plurals import format_count

if TYPE_CHECKING:
    from fitlog.records.models.session import Session
    from fitlog.records.wording.display_units import DisplayUnits


def session_arguments(parser: ArgumentParser) -> None:
    """PLAYER [SESSION], --set."""
    parsing.player(parser)
    made = parser.add_argument("session", metavar="SESSION", nargs="?", default="last", help="last if left out")
    parsing.from_shell(made, "sessions")
    parsing.settings(parser, "such as place=…, notes=…, air.temperature_c=21", "session_settings")


def session(call: Call) -> int:
    """Show a session, or change what is said of it as a whole."""
    given = call.args
    if given.set:
        from fitlog.actions.session.setup import set_session
        from fitlog.actions.values import parse_settings
        from fitlog.records.models.session import Session

        values = parse_settings(given.set, Session)
        desk = call.writing_desk()
        player = desk.workspace.pick_player(given.player)
        name = desk.workspace.pick_session(player, given.session)
        return call.report(set_session(desk, player, name, values), session=name)
    desk = call.desk()
    player = desk.workspace.pick_player(given.player)
    name = desk.workspace.pick_session(player, given.session)
    if call.json:
        from fitlog.views.session.overview import session_table

        output.print_json({"player": player, "session": name, **session_table(desk, player, name)})
    else:
        from fitlog.records.wording.display_units import DisplayUnits

        _show(name, desk.workspace.session(player, name), DisplayUnits(desk.workspace.settings_at_hand().units))
    return 0


def _show(name: str, record: "Session", units: "DisplayUnits") -> None:
    from fitlog.records.wording.words import describe_setup
    from fitlog.views.session.blind import HIDDEN, hidden_in
    from fitlog.views.session.columns import columns_of, format_shot
    from fitlog.views.session.plans import describe_next, planned_tests

    output.print_line(", ".join(filter(None, (name, record.place, record.season and f"season {record.season}"))))
    if record.notes:
        output.print_indented(record.notes, "  ")
    columns, hidden = columns_of(record), hidden_in(record)
    for plan in planned_tests(record):
        output.print_line(f"planned, {plan.plan.slot}: {describe_next(record, plan)}")
    for test in sorted(record.test, key=lambda each: hidden.name(each.id)):  # their order would tell them
        decision = (
            f"{test.verdict.decision}: {output.one_line(test.verdict.reason)}" if test.verdict else "no verdict yet"
        )
        output.print_line()
        if code := hidden.name(test.id):
            output.print_line(f"{name}  {test.slot} {code}")
        else:
            of_candidate = f"  {decision}" if test.role == "candidate" else ""
            output.print_line(f"{name}#{test.id}  {test.slot} {test.role}{of_candidate}")
            output.print_indented(describe_setup(test.raw.get("setup", {}), units), "  ")
        if hidden.has(test.id):
            output.print_line(f"  {format_count(len(test.shots), 'shot')} hit; {HIDDEN}")
            continue
        rows = [
            (
                shot.id,
                *format_shot(shot, columns),
                shot.feel or "",
                f"left out: {shot.excluded}" if shot.excluded else "",
            )
            for shot in test.shots
        ]
        output.print_table(rows, ("SHOT", *columns, "feel", ""))
