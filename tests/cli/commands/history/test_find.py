"""find and export through the shell."""

import csv
from pathlib import Path

import pytest

from fitlog.actions.bag import edit
from fitlog.saving.desk import Desk
from tests.cli.conftest import Run
from tests.views.search.test_finder import shop, tried

__all__ = ["shop"]


@pytest.fixture
def desk(shop: Desk) -> Desk:
    """What the commands run on."""
    return shop


def test_what_was_found_as_one_document(shop: Desk, fitlog: Run) -> None:
    ran = fitlog("find", "--part", "osier", "--what", "test", "--json")
    assert (ran.status, ran.err) == (0, "")
    assert [(hit["player"], hit["decision"]) for hit in ran.json["hits"]] == [("ane", "keep"), ("mo", "reject")]
    assert ran.json["hits"][1]["means"] == {"carry_yd": 214.0}
    assert ran.json["hits"][1]["reason"] == "starts left, the toe is dead"
    assert (ran.json["more"], ran.json["broken"]) == (False, [])


def test_what_was_found_in_words(shop: Desk, fitlog: Run) -> None:
    ran = fitlog("find", "toe")
    (line,) = ran.out.splitlines()
    for each in ("2026-04-18", "mo", "3w", "reject", "Osier 75, tip 1.25 in", "3 shots", "214 yd", "the toe is dead"):
        assert each in line
    assert fitlog("find", "no such word").out == "Nothing found.\n"


def test_words_and_options_narrow_together(shop: Desk, fitlog: Run) -> None:
    ran = fitlog("find", "--where", "tip_trim_in >= 1", "--where", "carry_yd < 215", "--verdict", "keep", "--json")
    assert [hit["player"] for hit in ran.json["hits"]] == ["ane"]
    ran = fitlog("find", "--limit", "1", "--json")
    assert (len(ran.json["hits"]), ran.json["more"]) == (1, True)
    assert "a larger --limit" in fitlog("find", "--limit", "1").err


@pytest.mark.parametrize(
    "words",
    [
        ("tip_trim_in >= 1",),
        ("tip_trim_in", ">=", "1", "--part", "osier"),
        ("tip_trim_in>=1", "slot:3w"),
        ("part:Osier 75", "keep"),
        ("--since", "2026", "--until", "2026-04", "keep"),
        ("--since", "20260418", "--what", "test", "--where", "carry_yd > 200", "ane"),
    ],
)
def test_the_shell_takes_the_line_of_the_find_page(shop: Desk, fitlog: Run, words: tuple[str, ...]) -> None:
    asked = fitlog("find", *words, "--json").json["hits"]
    assert ("ane", "keep", "holds its line") in {(hit["player"], hit["decision"], hit["reason"]) for hit in asked}
    assert {hit["slot"] for hit in asked} == {"3w"}
    assert fitlog("find", "--until", "2025-12", "keep", "--json").json["hits"] == []


@pytest.mark.parametrize(
    ("args", "text"),
    [
        (("tip_trim_in >=",), "is not a comparison"),
        (("--since", "2026-13"), "'2026-13' is not a date"),
        (("--reasons", "--slot", "3w"), "--reasons is not narrowed by slot"),
        (("--stale", "--kind", "wood"), "--stale is not narrowed by kind"),
        (("--where", "tip_trim >= 1"), "there is no key 'tip_trim'"),
        (("--where", "tip_trim_in"), "is not a comparison"),
        (("--verdict", "maybe"), "write keep, reject or retest"),
        (("--since", "spring"), "'spring' is not a date"),
        (("--limit", "0"), "a limit is at least 1"),
    ],
)
def test_a_wrong_question_is_answered_in_one_sentence(
    shop: Desk, fitlog: Run, args: tuple[str, ...], text: str
) -> None:
    ran = fitlog("find", *args)
    assert ran.status == 2
    assert ran.err.startswith("error: ")
    assert text in ran.err


def test_a_broken_file_is_told_beside_what_was_found(shop: Desk, fitlog: Run) -> None:
    Path(shop.root, "players/ane/bag.toml").write_text("[[club")
    ran = fitlog("find", "toe")
    assert "the toe is dead" in ran.out
    assert "1 file that cannot be read" in ran.err
    assert fitlog("find", "toe", "--json").json["broken"] == ["players/ane/bag.toml"]


def test_reasons_by_part(shop: Desk, fitlog: Run) -> None:
    (part,) = fitlog("find", "--reasons", "--part", "osier", "--json").json["parts"]
    assert (part["model"], part["tried"], part["rejected"], part["players"]) == ("Osier 75", 2, 1, 2)
    assert part["reasons"] == [{"reason": "starts left, the toe is dead", "times": 1}]
    text = fitlog("find", "--reasons", "osier").out
    assert "shaft Osier 75: tried 2 times by 2 players; kept 1, rejected 1, to retest 0" in text
    assert "1 × starts left, the toe is dead" in text


def test_stale_after_a_change_of_ball(shop: Desk, fitlog: Run) -> None:
    assert fitlog("find", "--stale").out == "No club rests on tests with another ball alone.\n"
    ref = tried(shop, "mo", "3w", "keep", "best yet", "shaft.model=Tansy 65")
    assert fitlog("find", "--stale", "--json").json == {"clubs": []}
    edit.set_ball(shop, "mo", {"model": "Siskin"}, "softer")
    (club,) = fitlog("find", "--stale", "--json").json["clubs"]
    assert (club["player"], club["club"]) == ("mo", "3w")
    assert club["tests"] == [{"ref": ref, "changed": "ball Wren 2025 → Siskin"}]
    assert "ball Wren 2025 → Siskin" in fitlog("find", "--stale").out


def test_export_writes_and_says_how_much(shop: Desk, fitlog: Run, tmp_path: Path) -> None:
    ran = fitlog("export", "shots", str(tmp_path / "all.csv"))
    assert (ran.status, ran.out) == (0, f"9 shots written to {tmp_path / 'all.csv'}\n")
    ran = fitlog("export", "verdicts", str(tmp_path / "some.csv"), "--part", "sedge", "--json")
    assert ran.json["rows"] == 1
    with (tmp_path / "some.csv").open() as file:
        assert [row["shaft.model"] for row in csv.DictReader(file)] == ["Sedge 80"]
    ran = fitlog("export", "shots", str(tmp_path / "all.csv"))
    assert (ran.status, ran.err.startswith("error: ")) == (1, True)
    player = Path(shop.root, "players/mo/player.toml")
    player.write_text(player.read_text() + "left_out = true\n")
    ran = fitlog("export", "shots", str(tmp_path / "all.csv"), "--overwrite")
    assert ran.out.startswith("3 shots written")
    assert "1 player left out" in ran.err
