"""Reading a plain call without argparse gives what argparse gives."""

from hypothesis import given
from hypothesis import strategies as st

from fitlog.cli.commands.bag import bag_arguments, bag_quick
from fitlog.cli.parsing import make_parser
from fitlog.records.errors import UsageError

words = st.sampled_from(
    [
        "mo",
        "jo-2",
        "--json",
        "-w",
        "ws",
        "--workspace",
        "--at",
        "2026",
        "--help",
        "-h",
        "-x",
        "--",
        "",
        "--at=1",
        "-wx",
    ]
)


@given(st.lists(words, max_size=7))
def test_as_argparse_reads_it_or_left_to_argparse(argv: list[str]) -> None:
    quick = bag_quick(argv)
    if quick is None:
        return
    parser = make_parser("bag", "show a bag")
    bag_arguments(parser)
    try:
        slow = parser.parse_args(argv)
    except UsageError as refused:  # what argparse refuses must not get through
        raise AssertionError(argv) from refused
    assert vars(quick) == vars(slow)


def test_the_plain_calls_are_read_quickly() -> None:
    for argv in (["mo"], ["mo", "--json"], ["-w", "ws", "mo", "--at", "2026", "--json"]):
        assert bag_quick(argv) is not None
