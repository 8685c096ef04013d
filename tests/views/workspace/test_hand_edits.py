"""Edits by hand, committed as one with a reason."""

from pathlib import Path

from fitlog.actions.workspace.commit_edits import commit_hand_edits
from fitlog.saving.desk import Desk


def test_several_files_are_said_in_words_and_a_single_one_by_what_changed(desk: Desk) -> None:
    root = Path(desk.root)
    (root / "parts/heads").mkdir(parents=True)
    for name in ("oak", "elm"):
        (root / f"parts/heads/{name}.toml").write_text(f'model = "{name}"\n')
    (root / "importers").mkdir()
    (root / "importers/bay.toml").write_text('name = "Bay"\n')
    bag = root / "players/mo/bag.toml"
    bag.write_text(bag.read_text().replace("length_in = 43.0", "length_in = 42.5"))
    done = commit_hand_edits(desk, "after the stock was counted")
    assert done.subject == "Edit by hand: bag of mo; 2 heads; importer bay"
    bag.write_text(bag.read_text().replace("length_in = 42.5", "length_in = 42.75"))
    assert commit_hand_edits(desk, "measured again").subject == "Edit by hand: 3w: length 42.5 → 42.75 in"
    (root / "importers/tee.toml").write_text('name = "Tee"\n')
    assert commit_hand_edits(desk, "the grass tee has its own").subject == "Edit by hand: importer tee"
