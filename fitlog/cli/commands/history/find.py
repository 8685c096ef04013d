"""find and export: across all players, from the index and from the files."""

from argparse import ArgumentParser
from typing import TYPE_CHECKING, Any

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.cli.progress import show_progress
from fitlog.records.wording.plurals import format_count

if TYPE_CHECKING:
    from fitlog.views.search.finder import Hit

_READING = "reading files that are new to the index"


def _add_filters(parser: ArgumentParser) -> None:
    """What find and export have in common: what is looked for."""
    parser.add_argument(
        "words",
        metavar="WORD",
        nargs="*",
        help="beginnings of words in parts, reasons, notes, names; or as on the Find page: part:osier, slot:3w, "
        "reject, 'tip_trim_in >= 1'",
    )
    parser.add_argument("--part", metavar="TEXT", default="", help="any piece of a model's name or a part's id")
    parser.add_argument("--kind", metavar="KIND", default="", help="wood, iron, wedge or putter")
    parser.add_argument("--verdict", metavar="VERDICT", default="", help="keep, reject or retest")
    parsing.from_shell(
        parser.add_argument("--player", metavar="PLAYER", default="", help="only this player"), "players"
    )
    parser.add_argument("--slot", metavar="SLOT", default="", help="driver, 3w, 7i …")
    parser.add_argument("--since", metavar="DATE", default="", help="this day and later")
    parser.add_argument("--until", metavar="DATE", default="", help="this day and earlier")
    parser.add_argument("--role", metavar="ROLE", default="", help="candidate or reference")
    parser.add_argument(
        "--where",
        metavar="COMPARISON",
        action="append",
        default=[],
        help="such as 'shaft.tip_trim_in >= 1', 'carry_yd > 240' (the mean) or 'shots >= 8'",
    )


def _filters(call: Call) -> dict[str, Any]:
    """The filters of a search, words included; an option counts before a word."""
    from fitlog.views.search.query_line import FIELDS, parse_find

    given = call.args
    words = []
    for word in given.words:
        field, colon, value = word.partition(":")
        spaced = colon and field.lower() in FIELDS and " " in value  # the shell took the quotes off
        words.append(f'{field}:"{value}"' if spaced else word)
    found = parse_find(" ".join(words), whole=True)
    options = {name: getattr(given, name) for name in FIELDS if getattr(given, name, "")}
    return {**found, **options, "where": [*given.where, *found["where"]]}


def find_arguments(parser: ArgumentParser) -> None:
    """[WORD…] and what narrows the search; --reasons, --stale."""
    _add_filters(parser)
    parser.add_argument(
        "--what", metavar="WHAT", default="", help="test, club, change, session, player, part or venue"
    )
    parser.add_argument(
        "--limit", metavar="N", type=parsing.whole_number, default=200, help="how many to show; 200 if left out"
    )
    parser.add_argument("--reasons", action="store_true", help="each part with its verdicts and why it was rejected")
    parser.add_argument("--stale", action="store_true", help="clubs whose tests were hit with another ball")
    parser.add_argument(
        "--effect", action="store_true", help="what a part (--part) or a change (--change) did, pooled over players"
    )
    parser.add_argument("--change", metavar="KEY=BY", default="", help="with --effect: such as shaft.tip_trim_in=0.5")


def find(call: Call) -> int:
    """Where something was tried, by whom, with what verdict and why, newest first."""
    from fitlog.records.errors import UsageError

    given = call.args
    if given.limit < 1:
        raise UsageError("a limit is at least 1", do="see: fitlog find --help")
    if given.reasons:
        return _reasons(call)
    if given.stale:
        return _stale(call)
    if given.effect or given.change:
        return _effect(call)
    from fitlog.views.search.finder import broken_files
    from fitlog.views.search.finder import find as look

    desk = call.desk()
    with show_progress(_READING) as tell:
        asked = _filters(call)
        hits = look(desk, *asked.pop("words"), **asked, limit=given.limit + 1, progress=tell)
    broken = broken_files(desk, fresh=True)
    more = len(hits) > given.limit
    hits = hits[: given.limit]
    if call.json:
        output.print_json({"hits": [_table(hit) for hit in hits], "more": more, "broken": broken})
        return 0
    output.print_table([_row(hit) for hit in hits])
    if not hits:
        output.print_line("Nothing found.")
    if more:
        output.print_note(f"there is more: these are the newest {given.limit}; see all with a larger --limit")
    if broken:
        files = format_count(len(broken), "file")
        output.print_note(f"the search leaves out {files} that cannot be read; see: fitlog check")
    return 0


def _effect(call: Call) -> int:
    from fitlog.cli.commands.history.which_change import parse_regain
    from fitlog.views.search.effect import describe_effect, pooled_effect

    desk = call.desk()
    asked = _check_filters(call, "an effect", "part", "kind", "slot")
    change = parse_regain(call.args.change) if call.args.change else None
    with show_progress(_READING) as tell:
        found = pooled_effect(desk, asked.get("part", ""), change, asked.get("kind", ""), asked.get("slot", ""), tell)
    if call.json:
        output.print_json(found)
        return 0
    head, *rest = describe_effect(found)
    output.print_line(head)
    for each in rest:
        output.print_indented(each, "  ")
    return 0


def _check_filters(call: Call, question: str, *narrows: str) -> dict[str, Any]:
    """What is looked for, where this question can be narrowed by no more than that.

    Raises UsageError where more was asked: it would be passed over in silence.
    """
    from fitlog.records.errors import UsageError

    asked = _filters(call)
    if more := [name for name, value in asked.items() if value and name not in ("words", *narrows)]:
        words = f"words, {', '.join(narrows)}" if len(narrows) > 1 else "a player"
        raise UsageError(f"{question} is not narrowed by {more[0]}", do=f"narrow it by {words}, or leave it out")
    return asked


def _table(result: "Hit") -> dict[str, Any]:
    return {key: value if value != "" else None for key, value in result._asdict().items()}


def _row(result: "Hit") -> tuple[str, ...]:
    how = result.decision or (result.role if result.what in ("test", "club") else "")
    shots = format_count(result.shots, "shot") if result.shots else ""
    carry = f"{result.means['carry_yd']:.0f} yd" if "carry_yd" in result.means else ""
    remarks = " · ".join(filter(None, (result.reason, result.notes)))
    ref = "" if result.what == "change" else result.ref  # its day stands first
    return (result.day, result.what, result.player, result.slot, ref, how, result.setup, shots, carry, remarks)


def _reasons(call: Call) -> int:
    from fitlog.views.search.finder import part_records

    given, asked = call.args, _check_filters(call, "--reasons", "part", "player", "kind")
    part = asked.get("part") or " ".join(asked["words"])
    with show_progress(_READING) as tell:
        parts = part_records(call.desk(), part, asked.get("player", ""), asked.get("kind", ""), progress=tell)
    if call.json:
        named = [
            {**each._asdict(), "reasons": [{"reason": why, "times": n} for why, n in each.reasons]} for each in parts
        ]
        output.print_json({"parts": named})
        return 0
    for each in parts:
        counts = f"kept {each.kept}, rejected {each.rejected}, to retest {each.retested}"
        output.print_line(
            f"{each.component} {each.model}: tried {format_count(each.tried, 'time')}"
            f" by {format_count(each.players, 'player')}; {counts}"
        )
        for why, times in each.reasons[: given.limit]:
            output.print_indented(f"{times} × {why}", "  ")
    if not parts:
        output.print_line("Nothing found.")
    return 0


def _stale(call: Call) -> int:
    from fitlog.views.search.finder import stale_after_ball

    asked = _check_filters(call, "--stale", "player")
    player = asked.get("player") or " ".join(asked["words"])
    with show_progress(_READING) as tell:
        clubs = stale_after_ball(call.desk(), player, progress=tell)
    if call.json:
        named = [
            {**each._asdict(), "tests": [{"ref": ref, "changed": change} for ref, change in each.tests]}
            for each in clubs
        ]
        output.print_json({"clubs": named})
        return 0
    output.print_table([(each.player, each.name, each.club, each.tests[-1][0], each.tests[-1][1]) for each in clubs])
    if not clubs:
        output.print_line("No club rests on tests with another ball alone.")
    return 0


def export_arguments(parser: ArgumentParser) -> None:
    """shots|verdicts FILE, and what narrows it."""
    parser.add_argument("table", choices=("shots", "verdicts"), help="which table")
    parser.add_argument("file", metavar="FILE", help="a .csv file, or a .parquet file where pyarrow is installed")
    _add_filters(parser)
    parser.add_argument("--overwrite", action="store_true", help="replace a file that is there already")


def export(call: Call) -> int:
    """Write shots or verdicts to a file, but for players left out."""
    from fitlog.views.search.export import export as write
    from fitlog.views.search.finder import find as look

    given, desk, only = call.args, call.desk(), None
    asked = _filters(call)
    if any(asked.values()):
        with show_progress(_READING) as tell:
            only = look(desk, *asked.pop("words"), **{**asked, "what": "test"}, progress=tell)
    with show_progress("exporting") as tell:
        done = write(desk, given.file, given.table, only, given.overwrite, tell)
    if call.json:
        output.print_json(done)
        return int(bool(done.broken_files))
    output.print_line(f"{done.rows:,} {given.table} written to {done.path}")
    if done.left_out:
        who = format_count(done.left_out, "player")
        output.print_note(f"{who} left out, as marked in player.toml")
    for each in done.broken_files:
        output.print_error(each)
    return int(bool(done.broken_files))
