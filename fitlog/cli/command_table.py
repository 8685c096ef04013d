"""Which command lives where, with its help: add a line and a module here.

The module ``fitlog.cli.commands.AREA.MODULE`` has two functions for it, named after the command's last word with
``_`` for ``-``: ``NAME_arguments(parser)`` says what it takes, ``NAME(call)`` does it and returns the exit status.
The module is imported only when its command is called.
"""

from importlib import import_module
from typing import Any

COMMANDS: dict[str, dict[str, tuple[str, str]]] = {
    "Workspace": {
        "init": ("workspace.workspace", "make a new workspace"),
        "demo": ("workspace.demo", "make the demo workspace with its history, and open it"),
        "check": ("workspace.workspace", "list what is wrong or odd in the files"),
        "put-back": ("workspace.workspace", "put a broken file back to its last sound text"),
        "settings": ("workspace.settings", "units shown, reference air, who logs, the shop; with --set, change some"),
        "edits": ("workspace.workspace", "show what was edited by hand; with --reason, save it"),
        "players": ("workspace.players", "list the players"),
        "player add": ("workspace.players", "add a player"),
        "player show": ("workspace.players", "a player's details"),
        "player set": ("workspace.players", "change a player's name, hand, preferences, notes, targets or steps"),
        "player criteria": ("workspace.players", "what a new test of some clubs must show"),
        "part list": ("workspace.parts", "list the parts in stock"),
        "part show": ("workspace.parts", "a part's values"),
        "part add": ("workspace.parts", "write a new part down"),
        "part set": ("workspace.parts", "change values of a part, with the reason"),
        "part keep": ("workspace.parts", "make a part of a club's head, shaft or grip"),
        "venue add": ("workspace.venues", "write down a place to play or test"),
        "venue change": ("workspace.venues", "change values of a venue, with the reason"),
        "venue list": ("workspace.venues", "list the venues"),
        "venue show": ("workspace.venues", "a venue's values, since when and why"),
    },
    "The bag": {
        "bag": ("bag.bag", "show a bag as it is, or as it was"),
        "specs": ("bag.specs", "a bag as a grid, stated beside measured; a table back into it"),
        "bag-set": ("bag.changes", "change values of one club, or put a new club in"),
        "rename-slot": ("bag.changes", "call a slot by another name; its history follows"),
        "take-out": ("bag.changes", "take a club out of the bag file"),
        "carry": ("bag.changes", "put a club into the bag to carry"),
        "leave": ("bag.changes", "leave a club at hand, not carried"),
        "makeup": ("bag.changes", "name a choice of clubs, carry it, put back, or drop it"),
        "ball": ("bag.changes", "change the ball played"),
        "swings": ("bag.swings", "the player's own names for partial swings, longest first"),
        "findings": ("bag.findings", "what to look at in a bag: rules, stale evidence, targets, gaps"),
        "bench": ("bag.bench", "the arithmetic of one club, and what stock could make of it"),
        "proven": ("history.restore", "mark clubs as proven: setups to go back to"),
        "season": ("bag.seasons", "close a season, or list them"),
    },
    "Tests": {
        "test": ("session.tests", "set up a test, with its shots where they are at hand"),
        "import": ("session.imports", "shots of several clubs from one file, in one go"),
        "carries": ("session.carries", "what each club carries at a venue or in the reference air"),
        "gaps": ("session.gaps", "how far every club carries, and the gaps; typed or from one file"),
        "watch": ("session.watch", "rows that appear in a folder's shot files go to the active test"),
        "importers": ("session.importers", "list the importers: how the columns of shot files are read"),
        "importer add": ("session.importers", "make a map from a shot file, or change one"),
        "shots": ("session.tests", "add shots to a test, or take the last one back"),
        "session": ("session.sessions", "show a session with its tests and shots, or say where and in what air"),
        "correct-shot": ("session.tests", "correct a shot's values in place"),
        "retest": ("session.tests", "test the same setup again, linked to the first test"),
        "leave-out": ("session.tests", "leave a shot out of the numbers, or count it again"),
        "criteria": ("session.tests", "say what a test must show"),
        "optimum": ("session.flight", "the furthest carry in reach of a club, from the player's own shots"),
        "plan": ("session.plan", "fix number and order of shots before the first; what to hit next"),
        "compare": ("verdict.compare", "candidates beside their reference: differences, criteria, warnings"),
        "guess": ("verdict.predictions", "note what you think a test will show, before its first shot"),
        "predictions": ("verdict.predictions", "how often what was predicted before a test held"),
        "next": ("session.next", "what is worth hitting with the balls that are left"),
        "verdict": ("verdict.verdict", "keep, reject or retest, with a reason"),
    },
    "Sheets": {
        "live": ("sheets.live", "a page that follows a session, for the customer to watch"),
        "report bag": ("sheets.report", "bag card: clubs, ladders, make-ups, what to look at"),
        "report verdict": ("sheets.report", "why a club was kept or turned down"),
        "report build": ("sheets.report", "parts, cuts, head weights, places for readings, cautions"),
        "report carries": ("sheets.report", "carries at a venue, what moves them, wedges by swing"),
        "report season": ("sheets.report", "what changed between two seasons and why; same club, then and now"),
        "report day": ("sheets.report", "all tests of a day, across players"),
    },
    "Looking and going back": {
        "history": ("history.history", "every change of a player or a slot, newest first"),
        "diff": ("history.history", "a bag beside another, in golf words"),
        "whichchange": ("history.which_change", "find which change made a club worse, with the fewest setups"),
        "decide-again": ("history.decide_again", "a past verdict beside what today's method makes of its shots"),
        "why": ("history.history", "why a value is what it is"),
        "restore": ("history.restore", "put clubs or the bag back to how they were"),
        "undo": ("history.restore", "take the last action back"),
    },
    "Across players": {
        "find": ("history.find", "where something was tried, by whom, with what verdict and why"),
        "export": ("history.find", "shots or verdicts as a table for analysis elsewhere"),
    },
    "Several vans, and bad days": {
        "sync": ("workspace.sync", "exchange changes with the shared repository"),
        "choices": ("workspace.sync", "where two vans changed the same thing, and both reasons"),
        "choose": ("workspace.sync", "settle a choice: what stands, or the other"),
        "backup": ("workspace.sync", "write the whole history into one verified file"),
        "merge-file": ("workspace.sync", "merge one file by meaning, for plain git merge"),
    },
    "Arithmetic": {
        "calc swing-weight": ("calc.weight", "swing weight, weight, balance point and MOI"),
        "calc match": ("calc.weight", "the weight that matches a club to another"),
        "calc cut": ("calc.build", "where to cut a raw shaft"),
        "calc lie": ("calc.build", "what a lie error does to the direction"),
        "calc loft": ("calc.build", "what a bend for loft does to bounce and offset"),
        "calc sleeve": ("calc.build", "loft, lie and face of a bent sleeve's positions"),
        "calc frequency": ("calc.build", "frequency of a shaft with a head"),
        "calc flight": ("calc.air", "the flight of one ball"),
        "calc what-if": ("calc.what_if", "a flight before and after another launch, spin, loft, speed or air"),
        "calc lofts": ("calc.what_if", "the same swing with more and less loft"),
        "calc air": ("calc.air", "density of moist air"),
        "calc stats": ("calc.stats", "summaries and comparisons of a plain table"),
    },
    "Shell": {
        "help": ("shell.help", "what keys of files, words, formulas and columns of a shot mean"),
        "completion": ("shell.completion", "print the lines that set up completion in a shell"),
    },
}


def find(name: str) -> tuple[str, str] | None:
    """The module, as AREA.MODULE, and the help of a command."""
    for group in COMMANDS.values():
        if name in group:
            return group[name]
    return None


def names() -> list[str]:
    """All commands."""
    return [name for group in COMMANDS.values() for name in group]


def functions_of(name: str, module: str) -> tuple[Any, Any]:
    """The functions of a command: one adds its arguments, one runs it."""
    loaded = import_module(f"fitlog.cli.commands.{module}")
    function = name.rpartition(" ")[2].replace("-", "_")
    do = getattr(loaded, function, None) or getattr(loaded, function + "_")  # import_: Python has the word itself
    return getattr(loaded, function + "_arguments"), do
