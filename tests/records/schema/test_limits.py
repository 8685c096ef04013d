"""What a file may hold at most."""

import pytest

from fitlog.records.schema.limits import DEEPEST, LARGEST_FILE, LARGEST_INTEGER, chain_line, excess, size_excess


def nested(depth: int) -> dict[str, object]:
    table: dict[str, object] = {"a": 1}
    for _ in range(depth - 1):
        table = {"a": table}
    return table


def test_the_deepest_table_is_the_last_that_is_taken() -> None:
    assert excess(nested(DEEPEST)) is None
    found = excess(nested(DEEPEST + 1))
    assert found is not None
    assert found.path == ("a",) * DEEPEST
    assert f"more than {DEEPEST} deep" in found.what


@pytest.mark.parametrize("sign", [1, -1])
def test_the_largest_integer_is_the_last_that_is_taken(sign: int) -> None:
    assert excess({"shots": [{"spin_rpm": sign * LARGEST_INTEGER}]}) is None
    found = excess({"shots": [{"spin_rpm": 1}, {"spin_rpm": sign * (LARGEST_INTEGER + 1)}]})
    assert found is not None
    assert found.path == ("shots", 1, "spin_rpm")


def test_floats_texts_and_flags_are_no_excess_whatever_their_size() -> None:
    assert excess({"a": 1e300, "b": "9" * 400, "c": True}) is None


def test_a_table_of_any_depth_is_answered() -> None:
    assert excess(nested(100_000)) is not None


def test_a_file_of_the_largest_size_is_taken() -> None:
    assert size_excess(LARGEST_FILE) == ""
    assert "at most" in size_excess(LARGEST_FILE + 1)


def test_the_line_of_a_long_key_is_named_and_a_long_text_is_no_key() -> None:
    assert chain_line("a = 1\nb = 2\n" + ".".join(["c"] * 600) + " = 3\n") == 3
    assert chain_line("note = '" + "far " * 2000 + "'") == 0
