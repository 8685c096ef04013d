"""A sync that was cut short is finished at the next start."""

from pathlib import Path

import pytest

from fitlog.actions import player
from fitlog.saving import save
from fitlog.saving.desk import Desk
from fitlog.sync import exchange
from fitlog.workspace import files
from fitlog.workspace.documents import Document
from fitlog.workspace.safety import pending
from tests.actions.history.steps import files_of
from tests.sync.vans import BAG, club, set_, sync_all


@pytest.mark.parametrize("cut", ["before", "ref", "file"])
def test_a_sync_cut_short_is_finished_at_the_next_start(
    vans: tuple[Desk, Desk], monkeypatch: pytest.MonkeyPatch, cut: str
) -> None:
    from fitlog.history.plumbing import advance
    from fitlog.saving import apply_commit

    one, two = vans
    set_(one, "3w", "length_in=42.5")
    player.add_player(one, "jo", "Jo", "right")
    exchange.sync(one)
    set_(two, "7i", "lie_deg=62")

    class Plug(BaseException):
        """The plug is pulled."""

    def pulled(*_: object) -> None:
        raise Plug

    real = files.write_whole
    written: list[str] = []

    def once(root: str, name: str, data: bytes) -> None:
        if written:
            raise Plug
        written.append(name)
        real(root, name, data)

    with monkeypatch.context() as patch:
        if cut == "before":
            patch.setattr(advance, "move", pulled)
        elif cut == "ref":
            patch.setattr(apply_commit, "_bring", pulled)
        else:
            patch.setattr(apply_commit, "write_whole", once)
        with pytest.raises(Plug):
            exchange.sync(two)
    assert pending.read_all(two.root)
    notes = save.recover(two)
    assert notes == ([] if cut == "before" else ["finished an interrupted sync"])
    assert two.history.changed_files() == []
    exchange.sync(two)
    exchange.sync(one)
    assert files_of(one) == files_of(two)
    assert club(one, "3w").setup.length_in == 42.5
    assert club(one, "7i").setup.lie_deg == 62


@pytest.mark.parametrize("value", ["lie_deg = 57.0", "length_in = 41.0"])
def test_an_edit_by_hand_under_a_sync_that_was_cut_short_takes_nothing_back(
    vans: tuple[Desk, Desk], monkeypatch: pytest.MonkeyPatch, value: str
) -> None:
    one, two = vans
    set_(one, "3w", "length_in=42.5")
    exchange.sync(one)
    monkeypatch.setattr("fitlog.saving.apply_commit.write_whole", _power_cut)
    with pytest.raises(KeyboardInterrupt):
        exchange.sync(two)
    monkeypatch.undo()
    key, _, said = value.partition(" = ")
    by_hand = Document(BAG, Path(two.root, BAG).read_text())
    by_hand.set(("club", [row["slot"] for row in by_hand.table["club"]].index("3w"), key), float(said))
    Path(two.root, BAG).write_text(by_hand.text())
    save.recover(two)
    sync_all(two, one)
    assert files_of(one) == files_of(two)
    wanted = (42.5, 57.0) if key == "lie_deg" else (41.0, None)
    assert (club(one, "3w").setup.length_in, club(one, "3w").setup.lie_deg) == wanted


def _power_cut(*_: object) -> None:
    raise KeyboardInterrupt
