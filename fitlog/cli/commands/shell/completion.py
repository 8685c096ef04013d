"""completion: teach a shell to complete commands and the workspace's ids."""

from argparse import ArgumentParser

from fitlog.cli import output
from fitlog.cli.call import Call

_SHELLS = ("bash", "zsh", "fish")


def completion_arguments(parser: ArgumentParser) -> None:
    """bash|zsh|fish."""
    parser.add_argument(
        "shell",
        choices=_SHELLS,
        help='eval "$(fitlog completion bash)", the same for zsh; fitlog completion fish | source',
    )


def completion(call: Call) -> int:
    """Print what the shell is to source."""
    from argcomplete.shell_integration import shellcode

    shell = call.args.shell
    code = shellcode(["fitlog"], shell=shell)
    if call.json:
        output.print_json({"shell": shell, "code": code})
    else:
        output.print_lines(code)
    return 0
