"""Which command lives where, with its one-line help: to add a command, add a line here and a module.

The module ``fitlog.cli.commands.MODULE`` has two functions for it, named after the command's last word with ``_``
for ``-``: ``NAME_arguments(parser)`` says what it takes, ``NAME(call)`` does it and returns the exit status. The
module is imported only when its command is called.
"""

from importlib import import_module
from typing import Any

COMMANDS: dict[str, dict[str, tuple[str, str]]] = {
    "Workspace": {
        "init": ("workspace", "make a new workspace"),
        "demo": ("demo", "make the demo workspace with its history, and open it"),
        "check": ("workspace", "list what is wrong or odd in the files"),
        "put-back": ("workspace", "put a broken file back to its last sound text"),
        "edits": ("workspace", "show what was edited by hand; with --reason, commit it"),
        "players": ("players", "list the players"),
        "player add": ("players", "add a player"),
        "player show": ("players", "what is written of a player"),
        "player set": ("players", "change a player's name, hand, preferences, notes, targets or steps"),
        "player criteria": ("players", "what a new test of some clubs must show"),
        "part list": ("parts", "list the parts in stock"),
        "part show": ("parts", "a part's values"),
        "part add": ("parts", "write a new part down"),
        "part set": ("parts", "change values of a part, with the reason"),
        "part keep": ("parts", "make a part of a club's head, shaft or grip"),
        "venue add": ("venues", "write down a place to play or test"),
        "venue change": ("venues", "change values of a venue, with the reason"),
        "venue list": ("venues", "list the venues"),
        "venue show": ("venues", "a venue's values, since when and why"),
    },
    "The bag": {
        "bag": ("bag", "show a bag as it is, or as it was"),
        "specs": ("specs", "a bag as a grid, stated beside measured; a table back into it"),
        "bag-set": ("bag_changes", "change values of one club, or put a new club in"),
        "rename-slot": ("bag_changes", "call a slot by another name; its history follows"),
        "take-out": ("bag_changes", "take a club out of the bag file"),
        "carry": ("bag_changes", "put a club into the bag to carry"),
        "leave": ("bag_changes", "leave a club at hand, not carried"),
        "makeup": ("bag_changes", "name a choice of clubs, carry it, put back, or drop it"),
        "ball": ("bag_changes", "change the ball played"),
        "swings": ("swings", "the player's own names for partial swings, longest first"),
        "findings": ("findings", "what to look at in a bag: rules, stale evidence, targets, gaps"),
        "bench": ("bench", "the arithmetic of one club, and what stock could make of it"),
        "proven": ("restore", "mark clubs as proven: setups to go back to"),
        "season": ("seasons", "close a season, or list them"),
    },
    "Tests": {
        "test": ("tests", "set up a test, with its shots where they are at hand"),
        "import": ("imports", "shots of several clubs from one file, in one go"),
        "carries": ("carries", "what each club carries at a venue or in the reference air"),
        "gaps": ("gaps", "how far every club carries, and the gaps; typed or from one file"),
        "watch": ("watch", "rows that appear in a folder's shot files go to the active test"),
        "importers": ("importers", "list the maps by which shot files come in"),
        "importer add": ("importers", "make a map from a shot file, or change one"),
        "shots": ("tests", "add shots to a test, or take the last one back"),
        "session": ("sessions", "show a session with its tests and shots, or say where and in what air"),
        "correct-shot": ("tests", "correct a shot's values in place"),
        "retest": ("tests", "test the same setup again, linked to the first test"),
        "leave-out": ("tests", "leave a shot out of the numbers, or count it again"),
        "criteria": ("tests", "say what a test must show"),
        "optimum": ("flight", "the furthest carry in reach of a club, from the player's own shots"),
        "plan": ("plan", "fix number and order of shots before the first; what to hit next"),
        "compare": ("compare", "candidates beside their reference: differences, criteria, warnings"),
        "guess": ("predictions", "note what you think a test will show, before its first shot"),
        "predictions": ("predictions", "how often what was predicted before a test held"),
        "next": ("next", "what is worth hitting with the balls that are left"),
        "verdict": ("verdict", "keep, reject or retest, with a reason"),
    },
    "Sheets": {
        "live": ("live", "a page that follows a session, for the customer to watch"),
        "report bag": ("report", "bag card: clubs, ladders, make-ups, what to look at"),
        "report verdict": ("report", "why a club was kept or turned down"),
        "report build": ("report", "parts, cuts, head weights, places for readings, cautions"),
        "report carries": ("report", "carries at a venue, what moves them, wedges by swing"),
        "report season": ("report", "what changed between two seasons and why; same club, then and now"),
        "report day": ("report", "all tests of a day, across players"),
    },
    "Looking and going back": {
        "history": ("history", "every change of a player or a slot, newest first"),
        "diff": ("history", "a bag beside another, in golf words"),
        "whichchange": ("which_change", "find which change of a club did it, by the fewest setups"),
        "decide-again": ("decide_again", "a past decision beside what its shots tell by today's method"),
        "why": ("history", "why a value is what it is"),
        "restore": ("restore", "put clubs or the bag back to how they were"),
        "undo": ("restore", "take the last action back"),
    },
    "Across players": {
        "find": ("find", "where something was tried, by whom, with what verdict and why"),
        "export": ("find", "shots or verdicts as a table for analysis elsewhere"),
    },
    "Several vans, and bad days": {
        "sync": ("sync", "exchange changes with the shared repository"),
        "choices": ("sync", "where two vans changed the same thing, and both reasons"),
        "choose": ("sync", "settle a choice: what stands, or the other"),
        "backup": ("sync", "write the whole history into one verified file"),
        "merge-file": ("sync", "merge one file by meaning, for plain git merge"),
    },
    "Arithmetic": {
        "calc swing-weight": ("calc_weight", "swing weight, weight, balance point and MOI"),
        "calc match": ("calc_weight", "the weight that matches a club to another"),
        "calc cut": ("calc_build", "where to cut a raw shaft"),
        "calc lie": ("calc_build", "what a lie error does to the direction"),
        "calc loft": ("calc_build", "what a bend for loft does to bounce and offset"),
        "calc sleeve": ("calc_build", "loft, lie and face of a bent sleeve's positions"),
        "calc frequency": ("calc_build", "frequency of a shaft with a head"),
        "calc flight": ("calc_air", "the flight of one ball"),
        "calc what-if": ("calc_whatif", "a flight before and after another launch, spin, loft, speed or air"),
        "calc lofts": ("calc_whatif", "the same swing with more and less loft"),
        "calc air": ("calc_air", "density of moist air"),
        "calc stats": ("calc_stats", "summaries and comparisons of a plain table"),
    },
    "Shell": {
        "help": ("help", "what keys of files, words, formulas and columns of a shot mean"),
        "completion": ("completion", "print the lines that teach a shell to complete"),
    },
}


def find(name: str) -> tuple[str, str] | None:
    """The module and help of a command."""
    for group in COMMANDS.values():
        if name in group:
            return group[name]
    return None


def names() -> list[str]:
    """All commands."""
    return [name for group in COMMANDS.values() for name in group]


def functions_of(name: str, module: str) -> tuple[Any, Any]:
    """Return the functions of a command: the one that adds its arguments and the one that runs it."""
    loaded = import_module(f"fitlog.cli.commands.{module}")
    function = name.rpartition(" ")[2].replace("-", "_")
    do = getattr(loaded, function, None) or getattr(loaded, function + "_")  # import_: Python has the word itself
    return getattr(loaded, function + "_arguments"), do
