"""Every key once, with name and help; screens make commands of them.

One key means one thing on every screen. Where a line to type in has the focus, letters belong to it, and the same
letter with Ctrl gives the command. Left alone are the keys that tmux and terminals take for themselves (Ctrl with
B, S, Q, function keys); where Ctrl+Q comes through, it leaves as Ctrl+C does. Ctrl+Z suspends.
"""

from typing import NamedTuple


class CommandKey(NamedTuple):
    """A key with its help; ``line_key`` is the key where a line has the focus.

    It is empty where the command is not needed there.
    """

    id: str
    key: str
    line_key: str
    name: str
    help: str
    footer: bool = True

    def on(self, has_entry: bool) -> str:
        """The key on a screen; ``has_entry`` where a line mostly has the focus."""
        return self.line_key if has_entry and self.line_key else self.key


# What these do would change something: in the past they do not work, and say so.
CHANGING_COMMANDS = frozenset(
    {
        "log_shot", "save_verdict", "new_test", "into_bag", "keep", "reject", "retest", "go_back", "undo", "proven",
        "change_value", "carry", "ball", "makeups", "measure", "take_back", "leave_out", "import_file", "columns",
        "correct", "hit_again", "guess", "place_and_air", "criteria", "details", "parts", "reference", "hand_edits",
        "add", "choose", "plan", "sync", "which_change", "put_back", "check", "settings",
    }
)  # fmt: skip
# What these do knows today alone: in the past they do not work, and say where they do.
OF_TODAY = {"live": "the live page follows today's session"}
_SYMBOLS = {
    "less_than_sign": "<", "slash": "/",
    "greater_than_sign": ">", "asterisk": "*", "exclamation_mark": "!", "equals_sign": "=",
    "percent_sign": "%", "minus": "-", "dollar_sign": "$", "vertical_line": "|", "tilde": "~",
    "number_sign": "#", "full_stop": ".", "semicolon": ";", "underscore": "_", "ampersand": "&", "colon": ":",
    "left_parenthesis": "(", "right_parenthesis": ")", "right_square_bracket": "]", "quotation_mark": '"',
    "comma": ",", "at": "@", "escape": "esc", "enter": "⏎", "question_mark": "?", "plus": "+",
    "backslash": "\\", "pageup": "pgup", "pagedown": "pgdn",
}  # fmt: skip


def format_key(key: str) -> str:
    """A key as the footer writes it.

    >>> format_key("ctrl+n"), format_key("escape"), format_key("k")
    ('^n', 'esc', 'k')
    """
    return _SYMBOLS.get(key, key.replace("ctrl+", "^").replace("shift+", "⇧"))


OPEN = CommandKey("open", "enter", "enter", "open", "open what the cursor is on")
LOG_SHOT = CommandKey("log_shot", "enter", "enter", "log shot", "log the shot that is typed; it is on disk at once")
SAVE_VERDICT = CommandKey("save_verdict", "enter", "enter", "save the verdict", "save the verdict with its reason")
SESSION = CommandKey("session", "s", "", "session", "the tests of today, or the latest ones of the club")
NEW_TEST = CommandKey("new_test", "n", "ctrl+n", "test", "a candidate: the bag's club, but …")
BENCH = CommandKey("bench", "m", "", "bench", "the bench: measure, weigh, make, worked out live")
SPECS = CommandKey(
    "specs", "number_sign", "", "specs", "the whole bag as a grid: type down a column, stated beside measured"
)
CARRIES = CommandKey(
    "carries",
    "left_parenthesis",
    "",
    "carries",
    "the carry card: at a venue, in a temperature and a wind; wedges by swing",
)
INTO_BAG = CommandKey("into_bag", "i", "ctrl+g", "into the bag", "write what was changed into the bag, with a reason")
DECIDE = CommandKey("decide", "d", "ctrl+d", "decide", "the verdict on a test: keep, reject or retest")
KEEP = CommandKey("keep", "k", "", "keep", "keep: the setup goes into the bag, on trial")
REJECT = CommandKey("reject", "x", "", "reject", "reject: the bag stays as it is")
RETEST = CommandKey("retest", "a", "", "again (retest)", "again: a retest before deciding")
HISTORY = CommandKey("history", "h", "", "history", "every change of the player, in words")
GO_BACK = CommandKey(
    "go_back", "b", "", "back to", "the club or the bag back to the last proven setup, or to a change"
)
UNDO = CommandKey("undo", "u", "", "undo", "take back the last action; the history keeps both")
PROVEN = CommandKey("proven", "p", "", "proven", "mark the club, or the whole bag, as proven: a setup to go back to")
WHY = CommandKey("why", "w", "", "why", "why each value of the club is what it is")
CHANGE_VALUE = CommandKey("change_value", "v", "", "change value", "change values of the club, or its slot")
CARRY = CommandKey(
    "carry", "c", "", "carry / leave", "carry the club, leave it at hand, or take it out", footer=False
)
BALL = CommandKey("ball", "full_stop", "", "ball", "change the ball that is played, with a reason", footer=False)
MAKEUPS = CommandKey(
    "makeups", "comma", "", "make-ups", "named choices of clubs: see, name, choose, remove", footer=False
)
MEASURE = CommandKey(
    "measure",
    "minus",
    "",
    "gaps",
    "measure the bag: hit club after club, and the wedges by swing; carries and gaps go into the ladder",
    footer=False,
)
SHEET = CommandKey("sheet", "j", "", "sheet", "print the bag card, a build sheet or the verdict sheet")
DETAILS = CommandKey(
    "details",
    "semicolon",
    "",
    "player",
    "name, hand, preferences, private notes, what each club should measure",
    footer=False,
)
PARTS = CommandKey(
    "parts", "underscore", "", "parts", "parts in stock: add, change, keep one from the club", footer=False
)
LINE_BY_LINE = CommandKey(
    "line_by_line", "g", "", "line by line", "the change line by line as the files have it, and back"
)
FILES = CommandKey(
    "files",
    "backslash",
    "backslash",
    "into a file",
    "back up, print the day sheet, export all shots as a table",
    footer=False,
)
SEASONS = CommandKey("seasons", "y", "", "year by year", "compare seasons, and close one")
TAKE_BACK = CommandKey("take_back", "t", "ctrl+t", "take back", "take back the last shot or value")
LEAVE_OUT = CommandKey(
    "leave_out",
    "o",
    "ctrl+o",
    "leave out",
    "leave the marked shot out with a reason, or count it again (↑ ↓ mark one)",
)
IMPORT_FILE = CommandKey(
    "import_file",
    "f",
    "ctrl+f",
    "file",
    "shots from a file, or from a folder that is watched: new rows come in by themselves",
)
COLUMNS = CommandKey("columns", "l", "ctrl+l", "columns", "which numbers are typed, and in which order")
PLACE_AND_AIR = CommandKey(
    "place_and_air", "at", "at", "place, air", "see and change place, ball, air and notes of the session"
)
CRITERIA = CommandKey(
    "criteria",
    "asterisk",
    "asterisk",
    "must show",
    "what the test must show, set before its shots; a later change stays visible",
)
CORRECT = CommandKey(
    "correct",
    "ctrl+x",
    "ctrl+x",
    "correct",
    "correct a shot in place: the one asked about, or the one marked with ↑ ↓ (⏎ does it too)",
    footer=False,
)
HIT_AGAIN = CommandKey(
    "hit_again", "ampersand", "ampersand", "hit again", "a retest: a new test of the setup that was decided"
)
GUESS = CommandKey(
    "guess",
    "dollar_sign",
    "dollar_sign",
    "own guess",
    "your own guess of what a candidate will show, before its first shot",
    footer=False,
)
PLAN = CommandKey(
    "plan",
    "tilde",
    "tilde",
    "plan",
    "plan the tests before the first shot: how many with each club, in what order, blind or open",
    footer=False,
)
LIVE = CommandKey(
    "live",
    "percent_sign",
    "percent_sign",
    "live page",
    "a page that follows the session, for the customer",
    footer=False,
)
REFERENCE = CommandKey(
    "reference", "r", "ctrl+r", "reference", "set up the bag's club as reference in today's session"
)
OLDER = CommandKey("older", "less_than_sign", "less_than_sign", "older", "the session before this one", footer=False)
NEWER = CommandKey("newer", "greater_than_sign", "greater_than_sign", "newer", "the session after", footer=False)
HAND_EDITS = CommandKey(
    "hand_edits", "e", "ctrl+e", "edits by hand", "save what was edited by hand as an edit of its own"
)
PUT_BACK = CommandKey(
    "put_back",
    "quotation_mark",
    "quotation_mark",
    "put back",
    "put a broken file back to its last sound version; the broken one stays beside it",
)
CHECK = CommandKey(
    "check",
    "right_parenthesis",
    "right_parenthesis",
    "check",
    "all that is wrong or odd in the files and in the history, and mend what can be mended",
    footer=False,
)
SETTINGS = CommandKey(
    "settings",
    "right_square_bracket",
    "right_square_bracket",
    "workspace",
    "units shown, reference air, who logs, the shop on sheets: what holds for all players",
    footer=False,
)
ADD = CommandKey("add", "plus", "plus", "add", "a new player, a club for a slot, a blank sheet")
QUESTIONS = CommandKey(
    "questions",
    "colon",
    "",
    "questions",
    "what is worth hitting next, which change did it, and was I right",
    footer=False,
)
WHICH_CHANGE = CommandKey(
    "which_change",
    "vertical_line",
    "vertical_line",
    "which change",
    "find which change made a club worse: begin a search, hit its next step, end it",
    footer=False,
)
THEN = CommandKey("then", "z", "", "then", "everything as it was at this change, read only")
TODAY = CommandKey("today", "z", "ctrl+y", "today", "leave the past for today")
FIND = CommandKey(
    "find", "slash", "slash", "find", "across all players: where a part was tried, what became of it and why"
)
CHOOSE = CommandKey(
    "choose",
    "exclamation_mark",
    "exclamation_mark",
    "choose",
    "what was changed in two places before a sync: choose which one stays",
)
SYNC = CommandKey("sync", "equals_sign", "equals_sign", "sync", "send what was done here, get what other vans did")
NEXT = CommandKey("next", "tab", "tab", "next", "the next test, list or scope")
PREVIOUS = CommandKey("previous", "shift+tab", "shift+tab", "previous", "the test or list before", footer=False)
PAGE_UP = CommandKey("page_up", "pageup", "pageup", "scroll up", "scroll the text or list up", footer=False)
PAGE_DOWN = CommandKey(
    "page_down", "pagedown", "pagedown", "scroll down", "scroll the text or list down", footer=False
)
HELP = CommandKey("help", "question_mark", "question_mark", "help", "what this screen shows and which keys work")
BACK = CommandKey("back", "escape", "escape", "back", "back to the screen before; what was typed is kept")
QUIT = CommandKey("quit", "q", "ctrl+c", "quit", "leave fitlog; all that was typed is kept", footer=False)
