"""The board: players found by typing, troubles named, edits by hand with their own commit."""

from pathlib import Path

from fitlog.actions import player
from fitlog.saving.desk import Desk
from fitlog.tui.widgets.rows import Row, Rows
from tests.tui.driving import Hands, drive


def test_typing_filters_and_enter_opens(desk: Desk) -> None:
    player.add_player(desk, "ada", "Ada Quill", "right")

    async def story(hands: Hands) -> None:
        assert "Ada Quill" in hands.text()
        await hands.type("fer")
        await hands.rest()
        assert "Ada Quill" not in hands.text()
        await hands.press("enter")
        assert hands.page == "BagPage"
        assert "Mo Ferrant" in hands.text()

    drive(desk, story)


def test_a_broken_file_is_named_with_its_line_and_the_rest_works(desk: Desk) -> None:
    player.add_player(desk, "ada", "Ada Quill", "right")
    path = Path(desk.root, "players/ada/bag.toml")
    path.write_text('season = "2026"\n[[club]]\nslot = "3w"\nlength_in = "long"\n')

    async def story(hands: Hands) -> None:
        message = hands.text()
        assert "broken file" in message
        assert "players/ada/bag.toml:4" in message
        assert "Mo Ferrant" in message
        await hands.press("down", "enter")
        assert "Alder 16" in hands.text()

    drive(desk, story, size=(140, 45))
    assert 'length_in = "long"' in path.read_text()


def test_an_edit_by_hand_is_shown_and_committed_as_its_own(desk: Desk) -> None:
    path = Path(desk.root, "players/mo/bag.toml")
    path.write_text(path.read_text().replace("length_in = 43.0", "length_in = 42.75"))

    async def story(hands: Hands) -> None:
        assert "1 edit by hand" in hands.text()
        await hands.press("ctrl+e")
        assert "length 43 → 42.75 in" in hands.text()
        await hands.type("cut on the bench")
        await hands.press("enter")
        assert "edit by hand" not in hands.text().splitlines()[0]

    drive(desk, story, size=(120, 30))
    entry = desk.history.entries(limit=1)[0]
    assert (entry.action, entry.reason) == ("edit", "cut on the bench")
    assert desk.history.changed_files() == []


def test_edits_by_hand_are_counted_when_the_key_is_pressed(desk: Desk) -> None:
    path = Path(desk.root, "players/mo/bag.toml")

    async def story(hands: Hands) -> None:
        await hands.press("ctrl+e")
        assert "nothing was edited by hand" in hands.text()
        path.write_text(path.read_text().replace("length_in = 43.0", "length_in = 42.75"))
        hands.app.sync_status.pending = hands.app.sync_status.pending._replace(edits=0)  # as it was known before
        await hands.press("ctrl+e")
        assert "length 43 → 42.75 in" in hands.text()

    drive(desk, story, size=(120, 30))


def test_a_broken_file_is_put_back_from_the_board_and_the_top_row_forgets_it(desk: Desk) -> None:
    path = Path(desk.root, "players/mo/bag.toml")
    sound, broken = path.read_text(), 'season = "2026"\n[[club]]\nslot = "3w"\nlength_in = "long"\n'
    path.write_text(broken)

    async def story(hands: Hands) -> None:
        await hands.see("! 1 broken file")
        await hands.press('"')
        seen = await hands.see("its last sound version is of")
        assert "players/mo/bag.toml" in seen
        await hands.press("enter")
        await hands.see("the broken one is kept as players/mo/bag.toml.broken", gone="! 1 broken file")

    drive(desk, story, size=(120, 30))
    assert path.read_text() == sound
    assert path.with_name("bag.toml.broken").read_text() == broken


def test_a_file_mended_elsewhere_is_forgotten_on_any_screen(desk: Desk) -> None:
    player.add_player(desk, "ada", "Ada Quill", "right")
    path = Path(desk.root, "players/ada/bag.toml")
    path.write_text("[[club]]\nslot = 3\n")

    async def story(hands: Hands) -> None:
        await hands.see("! 1 broken file")
        await hands.press("down", "enter", "s")
        assert hands.page == "SessionPage"
        assert "! 1 broken file" in hands.text()
        path.unlink()
        await hands.see("fitlog", gone="! 1 broken file")
        assert hands.page == "SessionPage"

    drive(desk, story, size=(120, 30))


def test_a_new_player(bare: Desk) -> None:
    async def story(hands: Hands) -> None:
        assert "no player yet" in hands.text()
        await hands.press("+")
        await hands.type("Jo Sand")
        await hands.press("enter")
        await hands.type("l")
        await hands.press("enter")
        assert "Jo Sand" in hands.text()

    drive(bare, story)
    assert bare.workspace.player("jo-sand").hand == "left"


def test_a_new_player_whose_name_gives_no_id_is_asked_for_one(bare: Desk) -> None:
    async def add(hands: Hands, *answers: str) -> None:
        await hands.press("+")
        for answer in answers:
            await hands.press("ctrl+u")
            await hands.type(answer)
            await hands.press("enter")

    async def story(hands: Hands) -> None:
        await add(hands, "…", "Jo S")
        assert "'Jo S' cannot be a short name" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("jo")
        await hands.press("enter", "r", "enter", "escape")
        await add(hands, "Jo", "jo")
        assert "there is a player jo already" in hands.text()
        await hands.press("ctrl+u")
        await hands.type("jo-two")
        await hands.press("enter", "l", "enter")

    drive(bare, story)
    assert [bare.workspace.player(each).hand for each in ("jo", "jo-two")] == ["right", "left"]


def test_a_bag_changed_by_another_hand_appears(desk: Desk) -> None:
    from fitlog.actions.bag.edit import bag_set

    async def story(hands: Hands) -> None:
        await hands.press("enter")
        assert "Tansy 65" not in hands.text()
        bag_set(desk, "mo", "3w", {"shaft.model": "Tansy 65"}, "elsewhere")
        await hands.see("Tansy 65")

    drive(desk, story)


def test_a_filter_that_finds_nobody_says_so(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.type("xyz")
        await hands.rest()
        assert "no player of this name" in hands.text()
        await hands.press("escape")
        assert "Mo Ferrant" in hands.text()

    drive(desk, story)


def test_the_bag_beside_is_one_row_a_club(desk: Desk) -> None:
    from fitlog.actions.bag.edit import bag_set

    bag_set(desk, "mo", "3w", {"shaft.model": "Tansy " + "long " * 30}, "a long name")

    async def story(hands: Hands) -> None:
        message = hands.text().splitlines()
        first = next(n for n, row in enumerate(message) if "driver   " in row or "driver  O" in row)
        assert "3w" in message[first + 1]
        assert "7i" in message[first + 2]

    drive(desk, story, size=(140, 40))


def test_few_players_leave_the_room_to_the_bag_and_many_still_scroll(desk: Desk) -> None:
    async def story(hands: Hands) -> None:
        players = hands.app.screen.query_one("#players", Rows)
        summary = hands.app.screen.query_one("#player-summary")
        assert players.size.height < 6 < summary.size.height
        players.show([Row(f"player-{number}", [f"Player {number}"]) for number in range(40)])
        await hands.rest()
        assert players.size.height <= summary.size.height
        await hands.press(*["down"] * 15)
        assert "Player 15" in hands.text()

    drive(desk, story, size=(80, 24))
