"""The ``fitlog`` command: find the command, parse, run, report errors."""

import gc
import os
import sys
from contextlib import suppress
from typing import TYPE_CHECKING, Any

from fitlog.records.errors import FitlogError, UsageError

if TYPE_CHECKING:
    from collections.abc import Sequence

_QUIET_END = 130
_HELP = ("-h", "--help", "help")
_TOPICS = ("files", "keys", "words", "formulas", "columns")  # of cli/help/topics.py, not loaded for this


def run() -> None:
    """The entry point: ends the process with the exit status."""
    _in_utf8()
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:  # closed by the caller
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115
        getattr(sys, name).reconfigure(errors="backslashreplace")
    gc.disable()  # a command makes few cycles and ends soon: looking for them takes a tenth of its time
    status = main(sys.argv[1:])
    try:
        sys.stdout.flush()
    except BrokenPipeError:
        _discard_stdout()
    except OSError as fault:
        status = _cannot_print(fault, status)
    gc.freeze()  # nor need the interpreter look for them once more as it ends
    if "threading" not in sys.modules:  # nothing runs beside: taking the interpreter apart would be for nothing
        with suppress(OSError):
            sys.stderr.flush()
        os._exit(status)
    sys.exit(status)


def main(argv: "Sequence[str]") -> int:
    """Run one command; returns 0 done, 1 a finding or a refusal, 2 wrong usage."""
    if "_ARGCOMPLETE" in os.environ:
        from fitlog.cli.completion.shell import answer

        return answer()
    folder: str | None = None
    try:
        folder, at, rest = _leading_options(list(argv))
        return _dispatch(folder, rest, at)
    except FitlogError as refused:
        return _report_refusal(refused, "--json" in argv)
    except SystemExit as end:  # argparse, having printed its help
        return end.code if isinstance(end.code, int) else 0
    except KeyboardInterrupt as interrupted:
        if interrupted.args:
            from fitlog.cli.output import print_note

            print_note(str(interrupted))
        return _QUIET_END
    except BrokenPipeError:
        _discard_stdout()
        return 1
    except OSError as fault:
        return _cannot_print(fault, 1) if _is_of_stdout(fault) else _report_crash(fault, folder, argv)
    except Exception as crash:
        return _report_crash(crash, folder, argv)


def _report_refusal(error: FitlogError, as_json: bool) -> int:
    """Say what is wrong; where one JSON document is asked for, that says it too."""
    from fitlog.cli.output import print_error, print_json

    problems = getattr(error, "problems", None) or [error]
    for each in problems:
        print_error(str(each))
    if as_json:
        print_json({"errors": [_error_table(each) for each in problems], "status": error.status})
    return error.status


def _error_table(problem: Any) -> dict[str, Any]:
    if isinstance(problem, FitlogError):
        return {"where": problem.where or None, "what": problem.what, "do": problem.do or None}
    place = f"{problem.file}:{problem.line}" if problem.line else problem.file
    return {"where": place, "key": problem.key or None, "what": problem.what, "do": problem.do or None}


def _report_crash(crash: Exception, folder: str | None, argv: "Sequence[str]") -> int:
    from fitlog.cli.crash import report_crash

    return report_crash(crash, folder or _workspace_in(argv))


def _in_utf8() -> None:
    """Begin anew in Python's UTF-8 mode where the locale knows only ASCII.

    Names and reasons are in any language.
    """
    if sys.getfilesystemencoding() != "utf-8" and sys.executable:
        os.execv(sys.executable, [sys.executable, "-X", "utf8", *sys.orig_argv[1:]])  # noqa: S606


def _is_of_stdout(fault: OSError) -> bool:
    """Whether printing failed; what fails on a file names it or is a Refusal."""
    from errno import EBADF, EDQUOT, EFBIG, EIO, ENOSPC

    return fault.filename is None and fault.errno in (ENOSPC, EDQUOT, EFBIG, EIO, EBADF)


def _cannot_print(fault: OSError, status: int) -> int:
    """Say that the output is lost, and whether the command itself was done.

    A full disk is the usual reason.
    """
    from fitlog.cli.output import print_error

    _discard_stdout()
    done = "this was done, and saved if it saves, but " if status == 0 else ""
    print_error(f"{done}standard output cannot be written: {fault.strerror}; free space there, or send it elsewhere")
    return 1


def _discard_stdout() -> None:
    """Send the interpreter's last flush nowhere: nobody reads on.

    That happens in ``fitlog history mo | head``.
    """
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError):
        return


def _leading_options(argv: list[str]) -> tuple[str | None, str, list[str]]:
    """Take ``-w DIR`` and ``--at WHEN`` off the front, before the command."""
    folder, at = None, ""
    while argv:
        first = argv[0]
        if first == "--at":
            if len(argv) < 2:
                raise UsageError("--at needs a day", do="write --at 2026-05-16")
            at, argv = argv[1], argv[2:]
            continue
        if first in ("-w", "--workspace"):
            if len(argv) < 2:
                raise UsageError(f"{first} needs a folder", do="write -w DIR")
            folder, argv = argv[1], argv[2:]
        elif first.startswith("--workspace="):
            folder, argv = first.partition("=")[2], argv[1:]
        elif first.startswith("-w") and not first.startswith("--"):
            folder, argv = first[2:], argv[1:]
        else:
            break
    return folder, at, argv


def _workspace_in(argv: "Sequence[str]") -> str | None:
    """The folder that -w names, wherever it stands: for the crash log."""
    for each, following in zip(argv, [*argv[1:], ""], strict=True):
        if each in ("-w", "--workspace"):
            return following
        if each.startswith("--workspace="):
            return each.partition("=")[2]
    return None


def _dispatch(folder: str | None, rest: list[str], at: str = "") -> int:
    if not rest:
        return _open_app(folder, at)
    if rest[0] in _HELP:
        named = [each for each in rest if each not in _HELP]
        of_help = named[0] in _TOPICS if named else rest[1:] in (["-h"], ["--help"])
        if rest[0] == "help" and of_help:
            from fitlog.cli import command_table

            return _run("help", command_table.find("help") or ("shell.help", ""), folder, rest[1:])
        if named:
            return _dispatch(folder, [*named, "--help"], at)
        from fitlog.cli.help.overview import print_help

        return print_help()
    if rest[0] == "--version":
        from fitlog import __version__

        sys.stdout.write(f"fitlog {__version__}\n")
        return 0
    from fitlog.cli import command_table

    if command_table.find(rest[0]) is None:  # -w DIR inside a command of two words
        inside, when, after = _leading_options(rest[1:])
        at = when or at
        folder, rest = inside or folder, [rest[0], *after]
    for words in (2, 1):
        name = " ".join(rest[:words])
        found = command_table.find(name) if len(rest) >= words else None
        if found:
            return _run(name, found, folder, rest[words:], at)
    from fitlog.cli.help.overview import handle_unknown

    return handle_unknown(rest)


def _run(name: str, entry: tuple[str, str], folder: str | None, rest: list[str], at: str = "") -> int:
    from fitlog.cli import command_table
    from fitlog.cli.call import Call
    from fitlog.cli.parsing import make_parser

    add_arguments, do = command_table.functions_of(name, entry[0])
    parser = make_parser(name, entry[1])
    add_arguments(parser)
    args = parser.parse_intermixed_args(rest)  # fitlog restore mo --to last-proven 3w
    args.workspace = args.workspace or folder

    call = Call(args, at)
    try:
        status: int = do(call)
    finally:
        call.close()
    if call.output_error and not isinstance(call.output_error, BrokenPipeError):
        return _cannot_print(call.output_error, status)
    return status


def _open_app(folder: str | None, at: str = "") -> int:
    from fitlog.views.workspace.location import ENVIRONMENT, find_root

    at_terminal = sys.stdin.isatty() and sys.stdout.isatty()
    try:
        root = find_root(os.getcwd(), folder)
    except UsageError:
        if folder or os.environ.get(ENVIRONMENT) or not at_terminal:
            raise
        return _begin()
    if not at_terminal:
        raise UsageError("the app needs a terminal to open in", do="name a command; see: fitlog --help")
    return open_app(root, at) if at else open_app(root)


def _begin() -> int:
    """Ask where to begin without a workspace, and open the app there.

    The app opens at the grid of the first player's bag.
    """
    from fitlog.tui.app import run as run_app
    from fitlog.tui.base.pages import SPECS
    from fitlog.tui.start.app import ask_where_to_begin

    gc.enable()
    opened = ask_where_to_begin()
    if opened is None:
        return 0
    status = int(run_app(opened.root, opened.player, first_page=SPECS if opened.player else ""))
    sys.stdout.write(f"The workspace is in {opened.root}. Next time: fitlog -w {opened.root}\n")
    return status


def open_app(root: str, at: str = "") -> int:
    """Open the app on a workspace, now or at a time; returns its exit status."""
    from fitlog.tui.app import run as run_app

    gc.enable()

    return int(run_app(root, player="", at=at))
