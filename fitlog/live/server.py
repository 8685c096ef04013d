"""Serve the page to this machine alone, or with a token to the network."""

import secrets
import socket
import sys
from collections.abc import Callable
from typing import Any, NamedTuple

from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk

LOCAL, ANYWHERE = "127.0.0.1", "0.0.0.0"  # noqa: S104  only where a person says --network
PORT = 8765


class Address(NamedTuple):
    """Where the page is: what to listen on, the token, and the address to open."""

    listen: str
    port: int
    token: str
    url: str


def address_of(network: bool, port: int = PORT) -> Address:
    """The page's address; on a network with a random token in it."""
    if not network:
        return Address(LOCAL, port, "", f"http://{LOCAL}:{port}/")
    token = secrets.token_urlsafe(16)
    return Address(ANYWHERE, port, token, f"http://{own_address()}:{port}/{token}/")


def own_address() -> str:
    """This machine's address in its network; nothing is sent to find it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # a documentation address: no packet goes out
            return str(probe.getsockname()[0])
        except OSError:
            return LOCAL


def qr_lines(url: str) -> str:
    """The address as a QR code for a terminal; empty where segno is not installed."""
    try:
        import segno
    except ImportError:
        return ""
    from io import StringIO

    out = StringIO()
    segno.make(url, error="m", micro=False).terminal(out, compact=True, border=2)
    return out.getvalue()


def qr_blocks(url: str) -> list[str]:
    """The address as a QR code in half blocks, black on white.

    The text is empty where segno is not installed.

    >>> len({len(line) for line in qr_blocks("http://127.0.0.1:8765/")}) <= 1
    True
    """
    try:
        import segno
    except ImportError:
        return []
    rows = [list(row) for row in segno.make(url, error="m", micro=False).matrix_iter(border=2)]
    rows += [[0] * len(rows[0])] * (len(rows) % 2)
    signs = {(0, 0): " ", (1, 0): "▀", (0, 1): "▄", (1, 1): "█"}
    pairs = zip(rows[::2], rows[1::2], strict=True)
    return ["".join(signs[bool(top), bool(low)] for top, low in zip(*pair, strict=True)) for pair in pairs]


def make_server(desk: Desk, player: str, at: Address, blind: bool = False) -> tuple[Any, socket.socket]:
    """The server, ready to run, and the socket that it listens on.

    Raises Refusal where Starlette and uvicorn are not there, or the port is taken.
    """
    try:
        import uvicorn

        from fitlog.live.app import make_app
    except ImportError as error:
        raise Refusal(
            "the live page needs Starlette and uvicorn, which are not installed here",
            do="install them with: pip install 'fitlog[live]'",
        ) from error
    from fitlog.live.state import page_state
    from fitlog.live.watch import Watch, files_stamp

    listening = _listen(at)
    watch = Watch(lambda: page_state(desk, player, blind), lambda: files_stamp(desk.root, player))
    config = uvicorn.Config(
        make_app(watch, at.token),
        log_level="warning",
        access_log=False,
        limit_concurrency=400,
        backlog=256,
        timeout_keep_alive=5,
        timeout_graceful_shutdown=1,
        h11_max_incomplete_event_size=8192,
        server_header=False,
        ws="none",
        log_config=None,
    )
    return uvicorn.Server(config), listening


def serve(desk: Desk, player: str, at: Address, blind: bool = False, ready: Callable[[], None] | None = None) -> None:
    """Serve until a person stops it; ``ready`` is called once it listens.

    Raises Refusal as ``make_server`` does.
    """
    server, listening = make_server(desk, player, at, blind)
    if ready:
        ready()
    with listening:
        server.run(sockets=[listening])


def free_port(first: int = PORT, tries: int = 20) -> int:
    """The first free port from ``first`` on; ``first`` itself where none is."""
    for port in range(first, first + tries):
        with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as probe:
            try:
                probe.bind((ANYWHERE, port))
            except OSError:
                continue
            return port
    return first


def _listen(at: Address) -> socket.socket:
    opened = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if sys.platform != "win32":
        opened.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        opened.bind((at.listen, at.port))
        opened.listen(256)  # who comes before the server runs waits
    except OSError as error:
        opened.close()
        raise Refusal(f"port {at.port} cannot be used: {error.strerror}", do="name another with --port N") from error
    return opened
