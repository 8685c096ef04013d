"""The keys of the app: one for one thing, and none that terminals keep."""

from collections import defaultdict

from fitlog.tui.base.commands import keys


def all_keys() -> list[keys.CommandKey]:
    return [each for each in vars(keys).values() if isinstance(each, keys.CommandKey)]


def test_one_key_means_one_thing() -> None:
    meanings = defaultdict(set)
    for command in all_keys():
        for key in {command.key, command.line_key} - {"", "enter"}:
            meanings[key].add("then" if command.id == "today" else command.id)  # there and back
    assert {key: ids for key, ids in meanings.items() if len(ids) > 1} == {}


def test_no_key_that_terminals_keep_for_themselves() -> None:
    used = {key for command in all_keys() for key in (command.key, command.line_key)}
    assert not used & {"ctrl+b", "ctrl+s", "ctrl+q", "ctrl+z", "ctrl+h", "ctrl+i", "ctrl+j", "ctrl+m"}
    assert not any(key.startswith("f") and key[1:].isdigit() for key in used)
