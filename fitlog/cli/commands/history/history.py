"""history, diff, why: what changed, when, by whom and why."""

import sys
from argparse import ArgumentParser
from collections import Counter
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.call import Call, print_differences
from fitlog.cli.progress import show_activity

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk
    from fitlog.views.history.timeline import Entry, Event
    from fitlog.views.history.why import Step, ValueHistory

_PAGE = 40
_ALL = 1_000_000
_ACTIVITY = "looking through the history"
_TIMES = (
    "The time names a change: type it in quotes after restore --to or bag --at, or for diff. Where several"
    " changes share a minute, use the eight characters beside the time."
)


def history_arguments(parser: ArgumentParser) -> None:
    """PLAYER [SLOT], --limit, --skip, --raw."""
    parsing.player(parser)
    made = parser.add_argument("slot", metavar="SLOT", nargs="?", default="", help="only this slot")
    parsing.from_shell(made, "slots")
    parser.add_argument(
        "--limit",
        metavar="N",
        type=parsing.whole_number,
        help=f"how many changes to show; else {_PAGE} on a terminal, and all elsewhere",
    )
    parser.add_argument(
        "--skip", metavar="N", type=parsing.whole_number, default=0, help="how many to pass over first"
    )
    parser.add_argument("--raw", action="store_true", help="each change line by line, as git shows it")
    parser.epilog = _TIMES


def history(call: Call) -> int:
    """The timeline."""
    from fitlog.records.errors import UsageError
    from fitlog.views.history.timeline import timeline

    given = call.args
    limit = given.limit
    if limit is None:
        limit = _PAGE if sys.stdout.isatty() and not call.json else _ALL
    if limit < 1 or given.skip < 0:
        raise UsageError("a limit is at least 1 and a skip at least 0", do="see: fitlog history --help")
    desk = call.desk()
    player = desk.workspace.pick_player(given.player)
    with show_activity(_ACTIVITY):
        events = timeline(desk, player, given.slot, min(limit + 1, _ALL), given.skip)
    more_to_come, events = len(events) > limit, events[:limit]
    if call.json:
        more = _raw_of(desk, player) if given.raw else _no_extras
        output.print_json(
            {
                "player": player,
                "slot": given.slot or None,
                "events": [
                    {**entry_table(each.entry), "differences": each.differences, **more(each)} for each in events
                ],
            }
        )
        return 0
    times = _times([each.entry for each in events])
    for event in events:
        _show(event, times[event.entry.commit])
        if given.raw:
            output.print_indented(_raw_of(desk, player)(event)["raw"], "  ")
    if not events:
        output.print_line("Nothing yet.")
    if more_to_come:
        output.print_note(f"there are older changes: --skip {given.skip + limit}")
    return 0


def _raw_of(desk: "Desk", player: str) -> Any:
    from fitlog.views.history.timeline import raw_diff

    return lambda event: {"raw": raw_diff(desk, event.entry.commit, player)}


def _no_extras(_: "Event") -> dict[str, Any]:
    return {}


def _times(entries: "Sequence[Entry]") -> dict[str, str]:
    """What names each change, by its commit: its time.

    The short id follows where another has the same time.
    """
    from fitlog.views.history.timeline import format_time

    count = Counter(format_time(each.when) for each in entries)
    return {
        each.commit: format_time(each.when) + (f"  {each.short}" if count[format_time(each.when)] > 1 else "")
        for each in entries
    }


def _show(event: "Event", time: str) -> None:
    entry = event.entry
    output.print_line("  ".join(filter(None, (time, entry.author))))
    output.print_indented(entry.subject, "  ")
    if entry.reason:
        output.print_indented("because: " + entry.reason)
    differences = [str(each) for each in event.differences]
    for each in differences:
        if each not in entry.subject:
            output.print_indented(each)


def entry_table(entry: "Entry") -> dict[str, Any]:
    """A commit as plain values."""
    return {
        "commit": entry.commit or None,
        "when": entry.when,
        "author": entry.author or None,
        "subject": entry.subject,
        "action": entry.action or None,
        "reason": entry.reason or None,
        "slots": entry.slots,
        "evidence": entry.evidence,
        "season": entry.season or None,
        "undoes": entry.undoes or None,
    }


def diff_arguments(parser: ArgumentParser) -> None:
    """PLAYER FROM [TO]."""
    parsing.player(parser)
    for name, many, text in (
        ("old", None, parsing.WHEN_HELP),
        ("new", "?", "likewise; else now"),
    ):
        metavar = "FROM" if name == "old" else "TO"
        made = parser.add_argument(name, metavar=metavar, nargs=many, default="", help=text)
        parsing.from_shell(made, "restore_points")


def diff(call: Call) -> int:
    """A bag beside another."""
    from fitlog.views.history.compare import compare_bags as compare

    with show_activity(_ACTIVITY):
        found = compare(call.desk(), call.args.player, call.args.old, call.args.new)
    if call.json:
        output.print_json(
            {
                "player": found.player,
                "from": found.old_label,
                "to": found.new_label,
                "differences": found.differences,
            }
        )
        return 0
    output.print_line(f"{found.player}, from {found.old_label} to {found.new_label}:")
    print_differences([str(each) for each in found.differences] or ["no difference"])
    return 0


def why_arguments(parser: ArgumentParser) -> None:
    """PLAYER SLOT [KEY]."""
    parsing.player(parser)
    parsing.slot(parser)
    what = "a dotted key, such as shaft.tip_trim_in; else whether the club is carried"
    made = parser.add_argument("key", metavar="KEY", nargs="?", default="", help=what)
    parsing.from_shell(made, "keys")
    parser.epilog = _TIMES


def why(call: Call) -> int:
    """Why a value is what it is, newest change first."""
    from fitlog.views.history.why import value_history

    desk = call.desk()
    if not call.args.key:
        return _why_club(call, desk)
    with show_activity(_ACTIVITY):
        found = value_history(desk, call.args.player, call.args.slot, call.args.key)
    if call.json:
        output.print_json(
            {
                "player": found.player,
                "slot": found.slot,
                "key": found.key,
                "value": found.value,
                "steps": [_step(desk, found, each) for each in found.steps],
            }
        )
        return 0
    _show_why(desk, found)
    return 0


def _why_club(call: Call, desk: "Desk") -> int:
    from fitlog.views.history.club_story import club_story

    with show_activity(_ACTIVITY):
        story = club_story(desk, call.args.player, call.args.slot)
    if call.json:
        change = entry_table(story.entry) if story.entry else None
        output.print_json({"player": story.player, "slot": story.club, "state": story.state, "change": change})
        return 0
    output.print_line(str(story))
    if story.entry:
        output.print_indented(story.entry.subject)
    return 0


def _step(desk: "Desk", history: "ValueHistory", step: "Step") -> dict[str, Any]:
    from fitlog.views.history.why import describe_tests

    tests = describe_tests(desk, step.entry.evidence, history.player)
    return {**entry_table(step.entry), "old": step.old, "new": step.new, "tests": tests}


def _show_why(desk: "Desk", history: "ValueHistory") -> None:
    from fitlog.records.wording.words import format_label, format_value
    from fitlog.views.history.why import describe_tests

    output.print_line(f"{history.slot} {format_label(history.key)}: {format_value(history.key, history.value)}")
    times = _times([each.entry for each in history.steps])
    for step in history.steps:
        entry = step.entry
        old, new = format_value(history.key, step.old), format_value(history.key, step.new)
        by = "  ".join(filter(None, (times[entry.commit], entry.author)))
        output.print_line(f"  {old} → {new}")
        output.print_indented(by)
        output.print_indented(entry.subject)
        if entry.reason:
            output.print_indented("because: " + entry.reason)
        for each in describe_tests(desk, entry.evidence, history.player):
            output.print_indented("test " + each)
