"""The parser of one command: our errors, numbers that look like options, and what must be given."""

import argparse

import pytest

from fitlog.cli.parsing import make_parser, plan, reason, settings, whole_number
from fitlog.records.errors import UsageError


def test_a_wrong_call_is_an_error_of_ours_that_names_the_help() -> None:
    parser = make_parser("bag-set", "change values of one club")
    with pytest.raises(UsageError, match="see: fitlog bag-set --help"):
        parser.parse_args(["--what"])


def test_a_value_without_its_option_is_told_where_it_goes() -> None:
    parser = make_parser("bag-set", "change values of one club")
    settings(parser, "values")
    with pytest.raises(UsageError, match="behind --set: --set lie_deg=57"):
        parser.parse_args(["lie_deg=57"])
    assert parser.parse_args(["--set", "a=1", "b=2", "--set", "c=3"]).set == ["a=1", "b=2", "c=3"]


@pytest.mark.parametrize("text", ["-2", "-2@44", "-1e3", "-inf", "-.5"])
def test_what_begins_like_a_number_below_zero_is_no_option(text: str) -> None:
    parser = make_parser("calc", "arithmetic")
    parser.add_argument("--at")
    assert parser.parse_args(["--at", text]).at == text


def test_what_must_be_given_stands_in_the_usage_and_is_checked_by_the_command() -> None:
    parser = make_parser("undo", "take back")
    reason(parser)
    plan(parser)
    assert "[--reason" not in parser.format_usage()
    assert "--reason TEXT" in parser.format_usage()
    assert parser.parse_args(["--dry-run"]).plan is True


@pytest.mark.parametrize("text", ["1.5", "", "x", "9" * 11, "1000000001"])
def test_what_is_no_whole_number_is_refused(text: str) -> None:
    with pytest.raises(argparse.ArgumentTypeError, match="is not a whole number"):
        whole_number(text)
    assert whole_number("1000000000") == 1_000_000_000
