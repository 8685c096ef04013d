"""The questions of the first page without a screen."""

import pytest

from fitlog.records.errors import UsageError
from fitlog.tui.start.steps import DEMO, MAKE, Answers


def asked(answers: Answers) -> str:
    return answers.question.key if answers.question else ""


def test_the_questions_in_their_order_and_one_step_back() -> None:
    answers = Answers()
    answers.choose(MAKE)
    for key, text in (("folder", ""), ("name", "Van"), ("units", "m"), ("player", "Mo Ferrant"), ("hand", "L")):
        assert asked(answers) == key
        answers.answer(text)
    assert answers.question is None
    assert answers.by_key == {
        "folder": "fitlog-workspace", "name": "Van", "units": "metres", "player": "Mo Ferrant", "hand": "left",
    }  # fmt: skip
    assert answers.player_id == "mo-ferrant"
    assert answers.back()
    assert asked(answers) == "hand"


def test_a_name_that_cannot_be_spelled_asks_for_a_short_one() -> None:
    answers = Answers()
    answers.choose(MAKE)
    for text in ("", "", "", "…"):
        answers.answer(text)
    assert asked(answers) == "id"
    with pytest.raises(UsageError, match="cannot be a short name"):
        answers.answer("Mo F")
    answers.answer("mo")
    assert answers.player_id == "mo"
    other = Answers()
    other.choose(MAKE)
    for text in ("", "", "", "李小花", ""):
        other.answer(text)
    assert other.player_id == "lixiaohua"


def test_what_is_missing_or_not_understood_is_asked_again() -> None:
    answers = Answers()
    answers.choose(MAKE)
    answers.answer("")
    answers.answer("")
    with pytest.raises(UsageError, match="is not understood"):
        answers.answer("furlongs")
    with pytest.raises(UsageError, match="'Mo Ferrant' is not understood; write yards or metres"):
        answers.answer("Mo Ferrant")
    answers.answer("")
    with pytest.raises(UsageError, match="name is missing"):
        answers.answer("  ")
    assert asked(answers) == "player"


def test_the_demo_asks_for_its_folder_alone() -> None:
    answers = Answers()
    answers.choose(DEMO)
    answers.answer("")
    assert (answers.question, answers.by_key) == (None, {"folder": "fitlog-demo"})
    assert answers.back()
    assert answers.back()
    assert not answers.back()
