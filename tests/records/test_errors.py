"""Errors that a person reads."""

from fitlog.records.errors import BrokenFile, FitlogError, Problem, Refusal, UsageError


def test_an_error_says_where_what_and_what_to_do() -> None:
    assert str(Refusal("it is gone", where="bag.toml", do="put it back")) == "bag.toml: it is gone; put it back"
    assert str(Refusal("it is gone", do="put it back")) == "it is gone; put it back"
    assert str(Refusal("it is gone")) == "it is gone"


def test_a_wrong_call_has_an_exit_status_of_its_own() -> None:
    assert (FitlogError("x").status, Refusal("x").status, UsageError("x").status) == (1, 1, 2)


def test_a_problem_names_its_line_where_there_is_one() -> None:
    problem = Problem("bag.toml", 3, "club.slot", "no slot", "name one")
    assert str(problem) == "bag.toml:3: club.slot: no slot; name one"
    assert str(problem._replace(line=0, key="", do="")) == "bag.toml: no slot"


def test_a_broken_file_has_a_line_for_each_problem() -> None:
    problems = [Problem("bag.toml", line, "", "no slot", "") for line in (3, 9)]
    broken = BrokenFile(problems)
    assert str(broken) == "bag.toml:3: no slot\nbag.toml:9: no slot"
    assert (broken.problems, broken.status) == (problems, 1)
