"""A page for the customer: for this machine or the network, and its end."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.errors import FitlogError
from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.text.sanitize import safe

if TYPE_CHECKING:
    from fitlog.live.background_server import LiveServer

_servers: dict[str, "LiveServer"] = {}  # by workspace: the page outlives the dialog, and ends with the app


class LivePage(Dialog[bool]):
    """Enter serves the page, or ends it; Tab lets others in the network open it too."""

    title_text = "A page that follows this session"
    types = False
    BINDINGS: ClassVar[list[BindingType]] = [Binding("tab", "turn", show=False, priority=True)]

    def __init__(self, player: str) -> None:
        super().__init__()
        self.player = player
        self.network = False

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="live")

    def on_mount(self) -> None:
        self._show()

    @property
    def server(self) -> "LiveServer | None":
        """The page that is served now."""
        return _servers.get(self.services.root)

    def _show(self) -> None:
        widget = self.query_one("#live", Static)
        running = self.server
        if running is None:
            who = "others on this network too, at a random address" if self.network else "this machine alone"
            widget.update(Content(f"The customer sees every shot, and can change nothing. For {who}."))
            self.hint_at("⏎ serves it    tab: for whom    esc leaves")
            return
        from fitlog.live.server import qr_blocks

        code = qr_blocks(running.at.url) if running.at.token else []
        blocks = [part for each in code for part in ("\n", (each, "black on white"))]
        widget.update(Content.assemble(f"{safe(running.player)}: open {running.at.url}", *blocks))
        self.hint_at("⏎ ends it    esc leaves; the page goes on")

    def action_turn(self) -> None:
        """For this machine alone, or for the network."""
        self.network = not self.network
        self._show()

    def submit(self, _: str, /) -> None:
        running = _servers.pop(self.services.root, None)
        if running is not None:
            running.stop()
            self._show()
            return
        try:
            from fitlog.live.background_server import LiveServer
            from fitlog.live.server import address_of, free_port

            at = address_of(self.network, free_port())
            _servers[self.services.root] = LiveServer(self.services.root, self.player, at)
        except FitlogError as error:
            self.trouble(str(error))
            return
        self._show()
