"""The page served inside another program, such as the app, until stopped."""

import threading
from typing import Any

from fitlog.live.server import Address, make_server
from fitlog.saving.desk import Desk


class LiveServer:
    """One page being served, with a desk and a thread of its own."""

    def __init__(self, root: str, player: str, at: Address, blind: bool = False) -> None:
        self.player, self.at = player, at
        self._desk = Desk(root)
        self._server: Any
        self._server, self._socket = make_server(self._desk, player, at, blind)
        self._thread = threading.Thread(target=self._serve, name="live page", daemon=True)
        self._thread.start()

    def _serve(self) -> None:
        with self._socket:
            self._server.run(sockets=[self._socket])

    def stop(self) -> None:
        """Stop serving, and wait until it has."""
        self._server.should_exit = True
        self._thread.join(5)
        self._desk.close()
