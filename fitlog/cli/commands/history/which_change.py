"""whichchange: it was good then and is not now; which change of the club did it?"""

from argparse import ArgumentParser
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.errors import UsageError

if TYPE_CHECKING:
    from fitlog.views.history.which_change import Search


def whichchange_arguments(parser: ArgumentParser) -> None:
    """PLAYER SLOT; --good WHEN --regain METRIC=BY, --next, --end --reason TEXT."""
    parsing.player(parser)
    parsing.slot(parser)
    parser.add_argument("--good", metavar="WHEN", help="when it was good: a date, a season or last-proven")
    parser.add_argument("--regain", metavar="METRIC=BY", help="what was lost since, such as carry_yd=8")
    parser.add_argument("--next", action="store_true", help="set up the next test, beside the club as it is")
    parser.add_argument("--end", action="store_true", help="end the search with what it found")
    parsing.reason(parser, only_with="--end")


def whichchange(call: Call) -> int:
    """Begin a search for the change to blame, go on, end it, or show it."""
    from fitlog.records.models.bag import choose_club
    from fitlog.views.history.which_change import look_at_search, open_search

    given = call.args
    if bool(given.good) != bool(given.regain):
        raise UsageError("a search needs to know when it was good and what was lost", do="give --good and --regain")
    if given.good:
        return _begin(call)
    desk = call.desk()
    player = desk.workspace.pick_player(given.player)
    address = choose_club(desk.workspace.bag(player), given.slot, player).address
    search = open_search(desk, player, address)
    if not search:
        raise UsageError(
            f"no search runs for the {address}", do="begin one with --good 2026-03-10 --regain carry_yd=8"
        )
    if given.next:
        return _next(call, player, search)
    if given.end:
        from fitlog.actions.history.which_change import end_search

        done = end_search(call.writing_desk(), player, search, call.reason())
        return call.report(done, search=search, result=desk.workspace.search(player, search).result)
    return _show(call, look_at_search(desk, player, search))


def _begin(call: Call) -> int:
    from fitlog.actions.history.which_change import start_search
    from fitlog.views.history.which_change import look_at_search

    given = call.args
    metric, by = parse_regain(given.regain)
    desk = call.writing_desk()
    search, done = start_search(desk, given.player, given.slot, given.good, metric, by)
    for each in done.notes:
        output.print_note(each)
    return _show(call, look_at_search(desk, desk.workspace.pick_player(given.player), search))


def parse_regain(text: str) -> tuple[str, float]:
    """``METRIC=BY`` as its two halves.

    Raises UsageError for another form.

    >>> parse_regain("spin_rpm=-300")
    ('spin_rpm', -300.0)
    """
    metric, _, by = text.partition("=")
    try:
        amount = float(by)
    except ValueError:
        amount = float("nan")
    if not metric or amount - amount != 0:
        raise UsageError(f"'{text}' does not say what to regain", do="write, for example, carry_yd=8")
    return metric, amount


def _next(call: Call, player: str, search: str) -> int:
    from fitlog.actions.history.which_change import start_step

    started = start_step(call.writing_desk(), player, search)
    return call.report(started.saved, search=search, ref=started.ref)


def _show(call: Call, search: "Search") -> int:
    if call.json:
        output.print_json(_plain(search))
        return 0
    record = search.record
    assert record.regain is not None
    from fitlog.records.wording.words import describe_amount

    output.print_line(f"{search.player} {record.slot}: search {search.id}, what changed since {record.good}")
    output.print_line(f"to regain: {describe_amount(record.regain.metric, record.regain.by)}")
    for each in record.left_out:
        output.print_indented(f"left out: {each}", "  ")
    for step in search.steps:
        output.print_indented(f"{step.ref}, {' and '.join(step.reverted)} put back: {step.sentence}", "  ")
    for line in search.sentences:
        output.print_indented(line, "  ")
    return 0


def _plain(search: "Search") -> dict[str, Any]:
    return {
        "player": search.player,
        "search": search.id,
        "slot": search.record.slot,
        "good": search.record.good,
        "regain": search.record.regain,
        "left_out": search.record.left_out,
        "changes": [{"name": each.name, "text": each.text, "chance": chance} for each, chance in search.ranking],
        "none": search.likelihoods.none,
        "steps": search.steps,
        "next": [each.name for each in search.next],
        "result": search.result or None,
        "sentence": search.conclusion,
    }
