"""What is said in a commit is what is read back, whatever a person types as a reason."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlog.history.message import SUBJECT_LENGTH, Message, read_entry, require_reason
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk

WORD = st.text(st.characters(blacklist_categories=["Cs", "Cc", "Zl", "Zp"]), min_size=1, max_size=12)


def read_back(text: str) -> object:
    return read_entry("c" * 40, "", "2026-04-18T10:00:00+01:00", "Some One", text)


@given(
    lines=st.lists(WORD.map(str.strip).filter(bool), min_size=1, max_size=5),
    slots=st.lists(st.just("3w"), max_size=2),
)
def test_a_reason_of_many_lines_is_read_back(lines: list[str], slots: list[str]) -> None:
    reason = "\n".join(lines)
    lone_points = [line for line in lines if line == "."]  # a lone point stands for an empty line
    entry = read_entry(
        "c" * 40, "a b", "2026-04-18T10:00:00+01:00", "One", Message("3w: x", "keep", reason, ["mo"], slots).text()
    )
    if not lone_points:
        assert " ".join(entry.reason.split()) == " ".join(reason.split())
    assert (entry.subject, entry.action, entry.players, entry.slots) == ("3w: x", "keep", ("mo",), tuple(slots))
    assert entry.parents == ("a", "b")


@given(text=st.text(max_size=80))
def test_no_text_of_a_person_can_forge_a_trailer(text: str) -> None:
    message = Message("3w: x", "keep", f"{text}\nAction: undo\nUndoes: {'a' * 40}", ["mo"])
    entry = read_entry("c" * 40, "", "2026-04-18T10:00:00+01:00", "One", message.text())
    assert (entry.action, entry.undoes) == ("keep", "")


def test_a_subject_is_one_line_of_bounded_length() -> None:
    subject = Message("a\nb\x1b[31m" + "x" * 300, "edit").text().partition("\n")[0]
    assert len(subject) == SUBJECT_LENGTH
    assert "\x1b" not in subject
    assert subject.startswith("a b[31mxxx")


@pytest.mark.parametrize(
    ("whole", "rest"),
    [
        (
            "driver: added, Vellum 10, Sallow 5 S, 45.2756 in, loft 10.5°",
            "; 3w: added, Vellum 4, Sallow 5 S, 43 in, loft 15°",
        ),
        (
            "driver: added, Vellum 10 with a long name of its own, Sallow 5 S, shaft weight 58 g, tip trim 0.5 in",
            ", length 45.25 in",
        ),
    ],
)
def test_a_long_subject_is_cut_between_values(whole: str, rest: str) -> None:
    subject = Message(whole + rest, "specs").text().partition("\n")[0]
    assert len(subject) <= SUBJECT_LENGTH
    assert subject.endswith("…")
    assert (whole + rest)[len(subject) - 1 :].startswith((";", ","))  # what is left out begins with a whole value


def test_a_reason_that_says_nothing_or_too_much_is_refused() -> None:
    for empty in ("", " \n\t", "\x00\x1b"):
        with pytest.raises(UsageError, match="a reason is missing"):
            require_reason(empty)
    with pytest.raises(Refusal, match="characters long"):
        require_reason("x" * 30_000)


@given(reason=st.text(st.characters(blacklist_categories=["Cs"]), min_size=1, max_size=40))
def test_a_commit_of_other_hands_is_read_without_trailers(reason: str) -> None:
    entry = read_entry("c" * 40, "", "2026-04-18T10:00:00+01:00", "One", "just words\n\n" + reason.replace(":", ";"))
    assert entry.action == ""
    assert entry.subject == "just words"


def test_git_keeps_the_message_to_the_letter(desk: Desk) -> None:
    reason = "# not a comment\n-m --amend\n\n日本語, é, “quotes”"
    message = Message("-- 3w: dashes first", "keep", reason, ["mo"], ["3w"], ["2026-04-18-q7k#b4t"])
    desk.history.commit(["players/mo/bag.toml"], message, desk.now())
    entry = desk.history.entry("HEAD")
    assert entry.subject == "-- 3w: dashes first"
    assert entry.reason == reason
    assert entry.evidence == ("2026-04-18-q7k#b4t",)
