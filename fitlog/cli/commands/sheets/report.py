"""report: bag cards and sheets, as text, Markdown or one HTML page."""

from argparse import ArgumentParser
from typing import TYPE_CHECKING

from fitlog.cli import output, parsing
from fitlog.cli.call import Call

if TYPE_CHECKING:
    from datetime import date

    from fitlog.report.document import Document

_WIDTH = 100


def _common(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--format", choices=("text", "html", "md", "pdf"), help="else by the end of FILE's name, else text"
    )
    parser.add_argument("-o", "--output", metavar="FILE", default="", help="write to FILE, else to standard output")
    parser.add_argument("--open", action="store_true", help="open the file written in your own viewer")
    parser.add_argument("--initials", action="store_true", help="initials in place of names")


def bag_arguments(parser: ArgumentParser) -> None:
    """PLAYER, --at."""
    parsing.player(parser)
    parser.add_argument("--at", metavar="WHEN", default="", help=parsing.WHEN_HELP)
    made = parser.add_argument("--venue", metavar="VENUE", default="", help="carries as they are there")
    parsing.from_shell(made, "venues")
    _common(parser)


def bag(call: Call) -> int:
    """The bag card."""
    from fitlog.report.sheets.bag import document
    from fitlog.views.sheets.bag_card import bag_card

    return _print_sheet(
        call, document(bag_card(call.desk(), call.args.player, call.args.at, call.args.venue), call.args.initials)
    )


def verdict_arguments(parser: ArgumentParser) -> None:
    """PLAYER [SESSION[#TEST]]."""
    parsing.player(parser)
    made = parser.add_argument(
        "test", metavar="SESSION[#TEST]", nargs="?", default="last", help="a session or one test of it; else the last"
    )
    parsing.from_shell(made, "tests")
    parser.add_argument("--line", metavar="TEXT", default="", help="in place of the sentence from the numbers")
    _common(parser)


def verdict(call: Call) -> int:
    """The verdict sheet of a test, or of all candidates of a session."""
    from fitlog.report.sheets.verdict import document
    from fitlog.views.sheets.verdict_sheet import verdict_sheets

    sheets = verdict_sheets(call.desk(), call.args.player, call.args.test)
    return _print_sheet(call, document(sheets, call.args.initials, call.args.line))


def build_arguments(parser: ArgumentParser) -> None:
    """PLAYER [SLOT|SESSION#TEST …], --target."""
    parsing.player(parser)
    made = parser.add_argument(
        "clubs", metavar="SLOT|SESSION#TEST", nargs="*", help="clubs of the bag or tests; none means all carried"
    )
    parsing.from_shell(made, "slots")
    parser.add_argument("--target", metavar="D2", default="", help="build them all to this swing weight")
    _common(parser)


def build(call: Call) -> int:
    """The build sheet."""
    from fitlog.report.sheets.build import document
    from fitlog.views.sheets.bag_card import build_sheet

    sheet = build_sheet(call.desk(), call.args.player, call.args.clubs, call.args.target)
    return _print_sheet(call, document(sheet, call.args.initials))


def carries_arguments(parser: ArgumentParser) -> None:
    """PLAYER, --at, --temperature, --wind, --makeup."""
    from fitlog.cli.commands.session.carries import place_arguments

    place_arguments(parser)
    _common(parser)


def carries(call: Call) -> int:
    """The card of carries."""
    from fitlog.cli.commands.session.carries import build_card
    from fitlog.report.sheets.carries import document

    return _print_sheet(call, document(build_card(call), call.args.initials))


def season_arguments(parser: ArgumentParser) -> None:
    """PLAYER [FROM [TO]]."""
    parsing.player(parser)
    parser.add_argument(
        "old", metavar="FROM", nargs="?", default="", help="a season, a day or a time; the last season closed"
    )
    parser.add_argument("new", metavar="TO", nargs="?", default="", help="the same; the bag as it is, if left out")
    _common(parser)


def season(call: Call) -> int:
    """The season sheet."""
    from fitlog.report.sheets.season import document
    from fitlog.views.sheets.season_sheet import season_sheet

    sheet = season_sheet(call.desk(), call.args.player, call.args.old, call.args.new)
    return _print_sheet(call, document(sheet, call.args.initials))


def day_arguments(parser: ArgumentParser) -> None:
    """[DATE]."""
    parser.add_argument("date", metavar="DATE", nargs="?", default="", help="such as 2026-04-18; today if left out")
    _common(parser)


def day(call: Call) -> int:
    """The day sheet."""
    from fitlog.report.sheets.day import document
    from fitlog.views.sheets.day_sheet import day_sheet

    return _print_sheet(call, document(day_sheet(call.desk(), _date(call.args.date)), call.args.initials))


def _date(text: str) -> "date | None":
    from datetime import date

    from fitlog.records.errors import UsageError

    if text in ("", "today"):
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise UsageError(f"'{text}' is not a date", do="write a date such as 2026-04-18") from None


def _print_sheet(call: Call, document: "Document") -> int:
    """Print the sheet, or write it to the file named."""
    from fitlog.records.errors import UsageError
    from fitlog.report.document import as_data
    from fitlog.report.formats.rendering import form_of, make_sheet, render, render_bytes, write
    from fitlog.system.viewer import show_file

    path = call.args.output
    document = make_sheet(call.desk(), document)
    for note in document.head.notes:
        output.print_note(note)
    if call.json:
        output.print_json(as_data(document))
        return 0
    form = call.args.format or form_of(path, "text")
    width = output.terminal_width() or _WIDTH
    if path:
        write(path, render_bytes(document, form, width))
        output.print_line(f"wrote {path}")
        if call.args.open and not show_file(path):
            output.print_note("no viewer was found on this computer")
    elif form == "pdf":
        raise UsageError("a PDF goes into a file", do="name one with -o FILE.pdf")
    else:
        output.print_lines(render(document, form, width))
    return 0
