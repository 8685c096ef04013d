"""What holds on every screen: keys, help, palette, text shown as text, errors as sentences, no colour needed."""

import os
import sys
from pathlib import Path

import pytest
from rich.cells import cell_len

from fitlog.actions import player as actions_player
from fitlog.actions.bag.edit import bag_set
from fitlog.actions.history.undo import undo
from fitlog.saving.desk import Desk
from tests.tui.driving import Hands, drive
from tests.tui.ways import PLAYER_SCREENS

NASTY = "[bold red]Oak[/] \x1b[31m\x1b]0;title\x07\u202e9 \x9b2J"


@pytest.mark.parametrize("size", [(80, 24), (140, 45)])
def test_text_of_files_is_shown_as_text(waiting: Desk, size: tuple[int, int]) -> None:
    player = Path(waiting.root, "players/mo/player.toml")
    player.write_text(player.read_text().replace("Mo Ferrant", "Mo [link=x]F[/link] \\u001b[2J"))
    bag_set(waiting, "mo", "driver", {"head.model": NASTY, "notes": NASTY}, "named so by\x1b[7m its maker [blink]")

    async def story(hands: Hands) -> None:
        lines = ""
        for way in (("escape",), ("enter",), *PLAYER_SCREENS):
            await hands.press(*way)
            lines += hands.text()
            if way and way[0] in ("down", "d", "h"):
                await hands.press("escape")
        await hands.press("home", "w", "escape", "n", "escape", "b", "escape")
        assert "[bold red]Oak[/]" in lines
        assert "[link=x]F[/link]" in lines
        assert not [char for char in lines if (ord(char) < 32 and char != "\n") or char in "\x7f\x9b\u202e"]

    drive(waiting, story, player="mo", size=size)


def test_every_screen_says_all_without_colour(waiting: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")

    async def story(hands: Hands) -> None:
        assert hands.app.no_color
        assert "● proven" in hands.text()
        colours = {
            segment.style.color.get_truecolor()
            for strip in hands.strips()
            for segment in strip.apply_filter(hands.app.get_line_filters()[0], hands.app.background_colors[0])
            if segment.style and segment.style.color
        }
        assert all(colour.red == colour.green == colour.blue for colour in colours)

    drive(waiting, story, player="mo")


def test_an_error_nobody_expected_is_a_sentence_and_a_log(waiting: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    from fitlog.views.bag import overview

    def broken(*_: object) -> None:
        raise ZeroDivisionError("told only to the log")

    monkeypatch.setattr(overview, "bag_overview", broken)

    async def story(hands: Hands) -> None:
        await hands.press("enter")
        lines = hands.text()
        assert "something went wrong; nothing typed is lost" in lines
        assert "ZeroDivisionError" not in lines

    drive(waiting, story)
    assert "told only to the log" in Path(waiting.root, ".fitlog/crash.log").read_text()


def test_a_part_that_went_with_an_upgrade_ends_the_wait_in_a_sentence(
    waiting: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "fitlog.views.history.timeline", None)  # importing it fails from now on

    async def story(hands: Hands) -> None:
        await hands.press("h")
        await hands.see("fitlog was changed while it was open: quit and open it again", gone="reading the history …")

    drive(waiting, story, player="mo")


def test_a_workspace_that_may_not_be_saved_says_so_and_keeps_the_reason(waiting: Desk) -> None:
    head = Path(waiting.root, ".git/HEAD")
    commit = waiting.history.head()

    async def story(hands: Hands) -> None:
        await hands.press("d", "k")
        await hands.type("longer")
        head.write_text(commit + "\n")
        await hands.press("enter")
        lines = " ".join(hands.text().split())  # where it wraps is up to the path
        assert "git shows" in lines
        assert ") (check)" in lines
        assert "longer" in lines

    drive(waiting, story, player="mo")


def test_edits_that_wait_are_finished_at_the_start_and_told(waiting: Desk) -> None:
    from fitlog.actions.session.shots import add_shot

    (session,) = waiting.workspace.sessions("mo")
    test = waiting.workspace.session("mo", session).test[1].id
    add_shot(waiting, "mo", f"{session}#{test}", {"carry_yd": 231.0})

    async def story(hands: Hands) -> None:
        assert "saved what was typed before" in hands.text()

    drive(waiting, story, size=(120, 30))
    assert waiting.history.changed_files() == []


def test_wide_characters_and_long_words_keep_their_columns(proven: Desk) -> None:
    long = "とても長い理由" * 12
    bag_set(proven, "mo", "3w", {"notes": "メモ" * 40, "shaft.model": "シャフト七十五"}, long)

    async def story(hands: Hands) -> None:
        await hands.press("down")
        rows = hands.text().splitlines()
        shaft, length = (next(row for row in rows if row.startswith(f" {name}  ")) for name in ("shaft", "length"))
        assert cell_len(shaft.partition("2026")[0]) == cell_len(length.partition("2026")[0].partition("″")[0])
        for key in ("h", "w"):
            await hands.press(key)
            messages = [row for row in hands.text().splitlines() if "とても長い" in row and "›" not in row]
            assert all(cell_len(row.rstrip()) <= 80 for row in messages)
            await hands.press("escape")

    drive(proven, story, (80, 40), player="mo")  # as high as all values of the club


def test_undo_asks_for_nothing_but_enter(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("u")
        assert "›" not in hands.text()
        assert "⏎ takes it back    esc leaves it" in hands.text()
        await hands.press("escape")
        assert hands.page == "BagPage"

    drive(proven, story, player="mo")


def test_a_workspace_that_was_taken_away_is_told_as_that(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        os.rename(proven.root, proven.root + ".gone")
        await hands.press("w")
        lines = hands.text()
        assert "! the folder " in lines
        assert "put it back, and the work goes on" in lines
        os.rename(proven.root + ".gone", proven.root)
        await hands.press("escape", "h")
        assert "Proven" in hands.text()

    drive(proven, story, (140, 45), player="mo")


def test_a_broken_bag_is_not_called_an_empty_one(proven: Desk) -> None:
    path = Path(proven.root, "players/mo/bag.toml")

    async def story(hands: Hands) -> None:
        path.write_text(path.read_text().replace("length_in = 43.0", 'length_in = "long"'))
        hands.app.screen.reload_if_changed()  # type: ignore[attr-defined]
        await hands.rest()
        lines = hands.text()
        assert "an empty bag" not in lines
        assert "0 carried" not in lines
        assert "this bag cannot be shown: it is broken, see below" in lines
        assert "players/mo/bag.toml" in lines
        assert "length_in: 'long'" in lines

    drive(proven, story, (120, 36), player="mo")


def test_an_empty_bag_leads_on_from_every_screen(desk: Desk) -> None:
    actions_player.add_player(desk, "ann", "Ann", "left")

    async def story(hands: Hands) -> None:
        assert "press # to type it into a grid" in hands.text()
        await hands.press("s")
        lines = hands.text()
        assert "goes back to the bag" in lines
        assert "log shot" not in lines
        assert "type the first one below" not in lines
        await hands.press("escape", "y")
        assert "no season is closed yet" in hands.text()
        assert "1 seasons" not in hands.text()

    drive(desk, story, player="ann")


def test_nothing_is_offered_where_no_player_is_found(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.type("zzz")
        last = hands.text().splitlines()[-1]
        assert "decide" not in last
        assert "open" not in last

    drive(proven, story)


def test_a_key_that_does_nothing_now_says_why(desk: Desk) -> None:
    actions_player.add_player(desk, "ann", "Ann", "left")

    async def story(hands: Hands) -> None:
        for key, lines in (("n", "+ adds one to the bag"), ("e", "nothing was edited by hand")):
            await hands.press(key)
            assert lines in hands.text()
        await hands.press("d", "k")
        assert "nothing waits for a verdict here" in hands.text()
        await hands.press("escape", "s", "ctrl+n")
        assert "no test is set up yet" in hands.text()

    drive(desk, story, player="ann")


@pytest.mark.parametrize("key", ["ctrl+c", "ctrl+q"])
@pytest.mark.parametrize("way", [("s",), ("d", "k"), ("v", "l", "i", "e", "enter"), ("@",), ("ctrl+p",), ("u",)])
def test_the_keys_that_leave_do_so_from_everywhere_and_keep_what_is_typed(
    waiting: Desk, key: str, way: tuple[str, ...]
) -> None:
    async def half(hands: Hands) -> None:
        await hands.press("down", *(("s", "@", "enter") if way == ("@",) else way))
        await hands.type("12")
        await hands.press(key)
        assert hands.app.return_code == 0

    async def again(hands: Hands) -> None:
        await hands.press("down", *(("s", "@") if way == ("@",) else way[:2] if way[0] == "d" else way[:1]))
        assert "›  12" in hands.text() or "› 12" in hands.text()

    drive(waiting, half, player="mo")
    if way not in (("ctrl+p",), ("u",)):  # nothing is asked for there
        drive(waiting, again, player="mo")


def test_what_is_selected_is_copied_first(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("down", "s")
        await hands.type("231 4")
        await hands.press("shift+home", "ctrl+c")
        assert hands.app.clipboard == "231 4"
        assert hands.app.return_code is None
        await hands.press("end", "ctrl+c")
        assert hands.app.return_code == 0

    drive(waiting, story, player="mo")


def test_the_mouse_turns_panes_chooses_rows_and_presses_the_footer(waiting: Desk) -> None:
    async def story(hands: Hands) -> None:
        async def click(text: str, times: int = 1) -> None:
            rows = hands.text().splitlines()
            y = next(n for n, row in enumerate(rows) if text in row)
            await hands.pilot.click(offset=(rows[y].index(text) + 1, y), times=times)
            await hands.rest()

        await click("ladder")
        assert "▸ladder" in hands.text()
        await click("remarks")
        rows = [row for row in hands.text().splitlines() if "rules not checked, values not known" in row]
        assert any(cell_len(row.rstrip()) > 60 for row in rows)  # wrapped to the pane, not to a guess
        await click("m bench")
        assert hands.page == "BenchPage"
        await click("cut plan")
        assert "▸cut plan" in hands.text()
        await click("esc back")
        await click("7i ", times=2)
        assert "Why 7i is what it is" in hands.text()

    drive(waiting, story, player="mo")


@pytest.mark.parametrize("way", [("enter",), ("enter", "h"), ("enter", "#")])
def test_undoing_a_new_player_leaves_no_page_of_that_player(desk: Desk, way: tuple[str, ...]) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("+")
        await hands.type("Ivo Marrow")
        await hands.press("enter", "r", "enter", *way)
        if way[-1] == "#":  # another hand undoes it meanwhile
            undo(desk, "ivo-marrow")
            await hands.press("escape")
        else:
            await hands.press("u", "enter")
        lines = await hands.see("Mo Ferrant, left-handed", gone="Ivo Marrow  right")
        assert hands.page == "Board"
        assert "there is no player" not in lines

    drive(desk, story)
    assert desk.workspace.players() == ["mo"]


def test_what_was_done_before_another_screen_opened_is_no_news_on_the_way_back(proven: Desk) -> None:
    async def story(hands: Hands) -> None:
        await hands.press("n", "enter")
        await hands.type("Osier 75")
        await hands.press("enter", "enter")
        assert hands.page == "SessionPage"
        await hands.press("escape")
        assert hands.page == "BagPage"
        assert "✓" not in hands.text()

    drive(proven, story, player="mo")
