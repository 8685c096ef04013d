"""File names that every system takes."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.records.naming.filenames import clashes, fold_name, is_text, name_fault


@pytest.mark.parametrize(
    "name",
    [
        "players/con/bag.toml", "players/mo/sources/AUX.csv", "a/lpt1", "a/COM¹.txt", "a/b:c.csv", 'a/"x".csv',
        "a/x?.csv",
        "a/x|y", "a\\b", "a/tab\t.csv", "a/dot.", "a/space ", "a/" + "é" * 61, "a/" * 120 + "b",
        "a/sh\udcff.csv", "nul",
        "a/con .csv", "x*", "a/\x7f",
    ],
)  # fmt: skip
def test_names_that_some_system_cannot_hold(name: str) -> None:
    assert name_fault(name)


@pytest.mark.parametrize(
    "name", ["workspace.toml", "players/mo-ferrant/sessions/2026-04-18-q7k.toml", "parts/heads/console.toml",
             "a/com10.csv", "a/communion.toml", ".gitignore", "a/Zoë übung (2).csv", "a/auxiliary.x", "a/b.c.d"],
)  # fmt: skip
def test_names_that_all_take(name: str) -> None:
    assert name_fault(name) == ""


def test_names_that_differ_in_case_or_form_only() -> None:
    names = ["players/mo/bag.toml", "players/mo/BAG.toml", "x/Zoë.csv", "x/Zoe\u0308.csv", "x/other"]
    assert clashes(names) == [("players/mo/BAG.toml", "players/mo/bag.toml"), ("x/Zoe\u0308.csv", "x/Zoë.csv")]
    assert clashes(["players/mo/bag.toml", "players/ada/bag.toml"]) == []


@given(st.lists(st.text("aAbBéÉ/", min_size=1, max_size=6), max_size=8))
def test_a_folding_system_would_lose_a_file_exactly_where_a_clash_is_found(names: list[str]) -> None:
    names = [name for name in dict.fromkeys(names) if all(name.split("/"))]
    listing: dict[str, str] = {}  # as such a system lists its files and folders: one name for all that fold alike
    lost = False
    for name in names:
        steps = name.split("/")
        for depth in range(1, len(steps) + 1):
            path = "/".join(steps[:depth])
            lost |= listing.setdefault(fold_name(path), path) != path
    assert bool(clashes(names)) == lost


@given(st.text(max_size=30))
def test_both_forms_of_a_name_fold_alike(name: str) -> None:
    assert fold_name(unicodedata.normalize("NFD", name)) == fold_name(unicodedata.normalize("NFC", name))
    assert is_text(name) or name_fault(name)
