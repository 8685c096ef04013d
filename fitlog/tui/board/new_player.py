"""A new player: the name, then the hand; the id is made from the name."""

from fitlog.records.names import id_from
from fitlog.saving.desk import Desk
from fitlog.saving.save import Done
from fitlog.tui.dialogs.dialog import Dialog


class NewPlayer(Dialog[str]):
    """Gives the new player's id."""

    title_text = "A new player"
    asks = "name"
    hint = "initials will do; ⏎ goes on    esc leaves"

    def __init__(self) -> None:
        super().__init__("new player")
        self.player_name = ""

    def submit(self, text: str) -> None:
        if not self.player_name:
            if text.strip():
                self.player_name = text.strip()
                self.purpose = ""
                self.ask_for("right or left hand")
                self.hint_at("r or l, then ⏎    esc leaves")
            return
        hand = {"r": "right", "l": "left"}.get(text.strip()[:1].casefold(), text.strip())
        player = id_from(self.player_name) or "player"

        def work(desk: Desk) -> Done:
            from fitlog.actions.player import add_player

            return add_player(desk, player, self.player_name, hand)

        def done(result: Done) -> None:
            self.services.keep_draft("new player", "")
            self.finished(result, player)

        self.do(work, done)
