"""live: one page that follows a player's session, for the customer to watch."""

import sys
from argparse import ArgumentParser

from fitlog.cli import output, parsing
from fitlog.cli.call import Call
from fitlog.records.errors import UsageError

_LEAST_PORT, _LARGEST_PORT = 1024, 65535


def live_arguments(parser: ArgumentParser) -> None:
    """PLAYER, --network, --port, --blind."""
    parsing.player(parser)
    parser.add_argument("--network", action="store_true", help="let others on this network open it, with its token")
    parser.add_argument("--port", metavar="N", type=parsing.whole_number, default=8765, help="8765 if left out")
    parser.add_argument("--blind", action="store_true", help="number the clubs and show no setup")


def live(call: Call) -> int:
    """Serve the page until Ctrl-C."""
    from fitlog.live.server import address_of, qr_lines, serve

    given = call.args
    if not _LEAST_PORT <= given.port <= _LARGEST_PORT:
        raise UsageError(
            f"{given.port} cannot be used as a port", do=f"name one from {_LEAST_PORT} to {_LARGEST_PORT}"
        )
    desk = call.desk()
    player = desk.workspace.pick_player(given.player)
    at = address_of(given.network, given.port)

    def ready() -> None:
        if call.json:
            output.print_json({"player": player, "url": at.url, "network": given.network})
        else:
            output.print_line(f"open {at.url}   (Ctrl-C ends it)")
            if given.network and sys.stdout.isatty():
                sys.stdout.write(qr_lines(at.url))
        sys.stdout.flush()

    serve(desk, player, at, given.blind, ready)
    return 0
