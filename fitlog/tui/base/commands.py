"""Every command once: its key, its name, its help; footer, bindings, help and palette are made from these.

One key means one thing on every screen. Where a line to type in has the focus, letters belong to it, and the same
letter with Ctrl gives the command. Left alone are the keys that tmux and terminals take for themselves (Ctrl with
B, S, Q, Z, function keys); where Ctrl+Q comes through, it leaves as Ctrl+C does.
"""

from collections.abc import Iterator
from typing import NamedTuple

from textual.binding import Binding

BOARD, BAG, SESSION, VERDICT, TIMELINE = "board", "bag", "session", "verdict", "timeline"
BENCH, FIND = "bench", "find"
PAGES = (BOARD, BAG, SESSION, VERDICT, TIMELINE, BENCH, FIND)


class Command(NamedTuple):
    """``typing`` is the key where a line has the focus, empty where the command is not needed there."""

    id: str
    key: str
    typing: str
    name: str
    help: str
    pages: tuple[str, ...]
    footer: bool = True

    def on(self, page: str) -> str:
        """The key on this page."""
        return self.typing if page in TYPED and self.typing else self.key


# pages on which a line to type in has the focus nearly all the time
TYPED = (BOARD, SESSION, FIND)
_SHOWN = {
    "less_than_sign": "<", "slash": "/",
    "greater_than_sign": ">", "asterisk": "*", "exclamation_mark": "!", "equals_sign": "=",
    "full_stop": ".", "comma": ",", "at": "@",
    "escape": "esc", "enter": "⏎", "question_mark": "?", "plus": "+", "pageup": "pgup", "pagedown": "pgdn",
}  # fmt: skip

COMMANDS = (
    Command("open_it", "enter", "enter", "open", "open what the cursor is on", (BOARD, FIND)),
    Command("shoot", "enter", "enter", "log shot", "log the shot that is typed; it is on disk at once", (SESSION,)),
    Command("confirm", "enter", "enter", "save the verdict", "save the verdict with its reason", (VERDICT,)),
    Command("session", "s", "", "session", "the tests of today, or the latest ones", (BAG, VERDICT, TIMELINE)),
    Command("candidate", "n", "ctrl+n", "test", "a candidate: the bag's club, but …", (BAG, SESSION, BENCH)),
    Command("bench", "m", "", "bench", "the bench: measure, weigh, make, worked out live", (BAG, SESSION, VERDICT)),
    Command("into_bag", "i", "", "into the bag", "write what was changed into the bag, with a reason", (BENCH,)),
    Command(
        "decide",
        "d",
        "ctrl+d",
        "decide",
        "the verdict on a test: keep, reject or retest",
        (BAG, SESSION, TIMELINE, BOARD),
    ),
    Command("keep", "k", "", "keep", "keep: the setup goes into the bag, on trial", (VERDICT,)),
    Command("reject", "x", "", "reject", "reject: the bag stays as it is", (VERDICT,)),
    Command("again", "a", "", "again (retest)", "again: a retest before deciding", (VERDICT,)),
    Command("history", "h", "", "history", "every change of the player, in words", (BAG, VERDICT)),
    Command(
        "go_back",
        "b",
        "",
        "back to",
        "the club or the bag back to the last proven setup, or to a change",
        (BAG, TIMELINE),
    ),
    Command("undo", "u", "", "undo", "take back the last action, as a new commit", (BAG, TIMELINE, VERDICT)),
    Command(
        "proven",
        "p",
        "",
        "proven",
        "mark the club, or the whole bag, as proven: a setup to go back to",
        (BAG, TIMELINE),
    ),
    Command("why", "w", "", "why", "why each value of the club is what it is", (BAG, TIMELINE)),
    Command("value", "v", "", "change value", "change values of the club", (BAG, BENCH)),
    Command(
        "carry", "c", "", "carry / leave", "put the club into the bag to carry, or leave it at hand", (BAG,), False
    ),
    Command("ball", "full_stop", "", "ball", "change the ball that is played, with a reason", (BAG,), False),
    Command(
        "makeups", "comma", "", "make-ups", "named choices of clubs: see, name, choose, take away", (BAG,), False
    ),
    Command(
        "sheet",
        "j",
        "",
        "sheet",
        "write the bag card, a build sheet or the verdict sheet into a file",
        (BAG, VERDICT),
    ),
    Command("raw", "g", "", "as git has it", "the change line by line, as git has it, and back", (TIMELINE,)),
    Command("seasons", "y", "", "year by year", "a season beside another season, and closing one", (BAG, TIMELINE)),
    Command("take_back", "t", "ctrl+t", "take back", "take back the last shot or value", (SESSION, BENCH)),
    Command(
        "leave_out",
        "o",
        "ctrl+o",
        "leave out",
        "leave the marked shot out with a reason, or count it again (↑ ↓ mark one)",
        (SESSION,),
    ),
    Command("file", "f", "ctrl+f", "file", "shots from a file, through an importer's map", (SESSION,)),
    Command("columns", "l", "ctrl+l", "columns", "which numbers are typed, and in which order", (SESSION,)),
    Command(
        "details", "at", "at", "place, air", "place, ball, air and notes of the session, seen and changed", (SESSION,)
    ),
    Command(
        "criteria",
        "asterisk",
        "asterisk",
        "must show",
        "what the test must show, said before its shots; a later change stays visible",
        (SESSION, VERDICT),
    ),
    Command(
        "reference",
        "r",
        "ctrl+r",
        "reference",
        "set up the bag's club as reference in this session",
        (SESSION,),
        False,
    ),
    Command("older", "less_than_sign", "less_than_sign", "older", "the session before this one", (SESSION,), False),
    Command("newer", "greater_than_sign", "greater_than_sign", "newer", "the session after", (SESSION,), False),
    Command(
        "edits",
        "e",
        "ctrl+e",
        "edits by hand",
        "commit what was edited by hand as an edit of its own",
        (BOARD, BAG, TIMELINE),
    ),
    Command("add", "plus", "plus", "add", "a new player, a club for a slot, a blank sheet", (BOARD, BAG, BENCH)),
    Command(
        "find",
        "slash",
        "slash",
        "find",
        "across all players: where a part was tried, what became of it and why",
        (BOARD, BAG, VERDICT, TIMELINE, BENCH),
    ),
    Command(
        "choose",
        "exclamation_mark",
        "exclamation_mark",
        "choose",
        "what was changed in two places before they were synced: which of the two holds",
        (BOARD, BAG, SESSION, VERDICT, TIMELINE, BENCH),
    ),
    Command(
        "sync",
        "equals_sign",
        "equals_sign",
        "sync",
        "send what was done here, get what other vans did",
        (BOARD, BAG, SESSION, VERDICT, TIMELINE, BENCH),
    ),
    Command(
        "next",
        "tab",
        "tab",
        "next",
        "the next test, list or scope",
        (BAG, SESSION, VERDICT, TIMELINE, BENCH, FIND),
    ),
    Command(
        "previous",
        "shift+tab",
        "shift+tab",
        "previous",
        "the test or list before",
        (BAG, SESSION, VERDICT, TIMELINE, BENCH, FIND),
        False,
    ),
    Command("page_up", "pageup", "pageup", "scroll up", "scroll the text or list up", PAGES, False),
    Command("page_down", "pagedown", "pagedown", "scroll down", "scroll the text or list down", PAGES, False),
    Command("help", "question_mark", "question_mark", "help", "what this screen shows and which keys work", PAGES),
    Command("back", "escape", "escape", "back", "back to the screen before; what was typed is kept", PAGES),
    Command(
        "leave",
        "q",
        "ctrl+c",
        "quit",
        "leave fitlog; all that was typed is kept",
        PAGES,
        False,
    ),
)


def commands(page: str) -> Iterator[Command]:
    """The commands of a page, in the order that the footer shows them."""
    return (each for each in COMMANDS if page in each.pages)


def bindings(page: str) -> list[Binding]:
    """The page's bindings. Ctrl keys come before what an input would do with them."""
    out = []
    for each in commands(page):
        keys = dict.fromkeys([each.key, *filter(None, [each.typing])])
        for key in keys:
            if key == "ctrl+c":  # copies first, where something is selected
                continue
            held = key.startswith("ctrl+") or key in ("tab", "shift+tab", "pageup", "pagedown")
            out.append(Binding(key, f"do('{each.id}')", each.name, show=False, priority=held))
    return out


def shown(key: str) -> str:
    """A key as the footer writes it.

    >>> shown("ctrl+n"), shown("escape"), shown("k")
    ('^n', 'esc', 'k')
    """
    return _SHOWN.get(key, key.replace("ctrl+", "^").replace("shift+", "⇧"))


# What a screen shows, in words, for the help.
ABOUT = {
    BOARD: (
        "All players. Type any part of a name to filter; ↑ ↓ choose; Enter opens the bag.",
        "Carried: clubs in the bag now. Trial: setups being played in. Open: candidates that wait for a verdict.",
        "Beside it the chosen player's bag: ● proven, ○ on trial, – at hand and not carried.",
        "A broken file is named with its line; the rest of the workspace works on around it.",
        "Edits by hand are welcome: Ctrl+E commits them as an edit of their own.",
        "= syncs with the other vans; offline is normal, and ↑ counts what is not sent yet.",
        "Where two vans changed the same thing, one value stands and ≠ counts it; ! chooses, whenever you like.",
    ),
    BAG: (
        "The clubs by slot. ↑ ↓ choose one; beside or below stand its values, each with since when and why.",
        "Standing: ● proven is a setup to go back to, ○ trial is being played in.",
        "Swing weight: = was read on the bench, ~ is computed from components, ? with customary values assumed.",
        "Marks before a slot: · carried, – at hand but not carried; c carries a club or leaves it at hand.",
        "Another ball (key .) touches the evidence of every club. Make-ups (key ,) are named choices of clubs for a"
        " course or a purpose.",
        "Loft: the club's own where it is set, else the head's. Carry beside the ladder: the mean of the newest test"
        " that the club rests on, in brackets where that test had another ball, setup or season.",
    ),
    SESSION: (
        "Reference and candidates of one slot side by side; the line below takes the shots of the marked test.",
        "Type the numbers in the order of the columns with spaces between, then Enter. - is not measured.",
        "Words after the numbers are kept as the feel. 12L or -12 is 12 left of target, 12 or 12R right of it.",
        "Right of target is positive for every player. Toe and high on the face are positive.",
        "Heel-toe and draw-fade go by the player's hand: a draw curves towards the player's own side after starting"
        " to the other, for a right-hander right to left, for a left-hander left to right.",
        "n counts the shots that count; ± is the spread (one standard deviation).",
        "@ shows and changes place, ball and air: carries are compared, and flights computed, in the air noted here.",
    ),
    VERDICT: (
        "Left what the test had to show and what its shots say; right what the verdict will change.",
        "k keeps, x rejects, a asks for a retest; then the reason, then Enter. Nothing is saved before Enter.",
        "The numbers show their limits; the decision is yours. j writes the verdict sheet into a file.",
        "Right of target is positive for every player; draw and fade are named by the player's hand.",
    ),
    BENCH: (
        "Every value that goes into the club's arithmetic, and how it is known: read on the bench, as written,",
        "from stock (filled from the part's file), or assumed (a customary value). Nothing is saved by changing it.",
        "⏎ types the chosen value and everything follows at each key; ← → move it by a step; t takes it back.",
        "n makes a candidate of what lies here, i writes it into the bag with a reason. + starts a blank sheet.",
        "Weights are place and grams: back 8, tip 2. Stock: 1 to 9 lays that build on the bench.",
        "Rules of thumb stand in brackets; the numbers before them are this club's own.",
    ),
    FIND: (
        "Where a part was tried, by whom, with what verdict and why, over all players; newest first.",
        "Words begin words of parts, reasons, notes and names. reject, keep and retest are verdicts.",
        "part:osier, slot:3w, player:mo, kind:wood, since:2026-04-01, until: and what: narrow it.",
        "tip_trim_in >= 1 compares a setup; carry_yd > 240 the mean of the shots; shots >= 8 how many there are.",
        "Tab goes on to the parts with their reasons for rejection, and to clubs whose tests had another ball.",
        "Enter opens the session, the bag or the changes; for a part, where it was tried.",
    ),
    TIMELINE: (
        "Every change of the player, newest first. Tab shows the chosen club's changes alone.",
        "Beside it the differences in words, the reason, and the tests it rests on; g shows git's own lines.",
        "b goes back to how the club or the bag was after the marked change. Going back is a new change.",
    ),
}
