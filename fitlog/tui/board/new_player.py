"""A new player: the name, then the hand, and the id where need be.

It is made from the name where that can be.
"""

from fitlog.records.naming.names import id_from
from fitlog.saving.change_stamp import player_ids
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.dialog import Dialog

_SHORT = "small letters, digits and hyphens, such as mo"


class NewPlayer(Dialog[str]):
    """Gives the new player's id."""

    title_text = "A new player"
    asks = "name"
    hint = "initials will do; ⏎ goes on    esc leaves"

    def __init__(self) -> None:
        super().__init__("new player")
        self.player_name = ""
        self.player_id = ""

    def submit(self, text: str) -> None:
        if not self.player_name:
            self._take_name(text.strip())
        elif not self.player_id:
            self._take_id(text.strip())
        else:
            self._add(text.strip())

    def _take_name(self, name: str) -> None:
        if not name:
            self.trouble("a name is missing; initials will do")
            return
        self.player_name, self.purpose = name, ""
        player = id_from(name)
        if player and player not in player_ids(self.services.root):
            self._ask_for_hand(player)
            return
        why = f"there is a player {player} already" if player else "this name cannot be spelled in plain letters"
        self.ask_for("a short name in plain letters")
        self.hint_at(f"{why}: {_SHORT}, then ⏎    esc leaves")

    def _take_id(self, player: str) -> None:
        if not player or id_from(player) != player:
            self.trouble(f"'{player}' cannot be a short name; write {_SHORT}")
        elif player in player_ids(self.services.root):
            self.trouble(f"there is a player {player} already; write another short name")
        else:
            self._ask_for_hand(player)

    def _ask_for_hand(self, player: str) -> None:
        self.player_id = player
        self.ask_for("right or left hand")
        self.hint_at("r or l, then ⏎    esc leaves")

    def _add(self, text: str) -> None:
        if not text:
            self.trouble("say which hand: r or l")
            return
        hand, player = {"r": "right", "l": "left"}.get(text[:1].casefold(), text), self.player_id

        def work(desk: Desk) -> SaveResult:
            from fitlog.actions.player import add_player

            return add_player(desk, player, self.player_name, hand)

        def finish(result: SaveResult) -> None:
            self.services.keep_draft("new player", "")
            self.close_with(result, player)

        self.do(work, finish)
