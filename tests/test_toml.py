"""The quick reader reads what tomllib reads, value for value, and refuses what it refuses."""

import random
import tomllib
from pathlib import Path
from typing import Any

import pytest
import rtoml  # noqa: F401  once it is loaded it reads short texts too

from fitlog.toml import load_toml

DEMO = sorted(Path(__file__).parents[1].joinpath("demo_workspace").rglob("*.toml"))
# From the grammar of TOML 1.0 and 1.1 (toml.io), with what the two versions differ in.
ODD = [
    "a=9223372036854775807", "a=9223372036854775808", "a=-9223372036854775809", "a=" + "9" * 400, "a=1e400", "a=nan",
    "a=-nan", "a=-inf", "a=0xffffffffffffffff", "a=1_000", "a=1__0", "a=0.1", "a=5e-324", "a=-0.0", "a=0e5", "a=01",
    "a=1.", "a=.5", "a=+1", "a=1979-05-27T07:32:00Z", "a=1979-05-27T07:32:00.999999999-07:00",
    "a=1979-05-27 07:32:00",
    "a=1979-05-27", "a=07:32:00.1234567", "a=07:32", "a=07:32:00 # 9-1", "a=1979-05-27T07:32", "a=23:59:60",
    "a=1979-05-27T07:32:00+24:00", "a=1979-05-27T07:32:00 Z", "a=2023-02-29", "a=0000-01-01", 'a="\\u0000"',
    'a="\\ud800"', 'a="\\U0010ffff"', 'a="\\e"', 'a="\\x41"', "a=1\na=2", "[a]\n[a]", "a.b=1\n[a]\nc=2",
    "[a.b]\n[a]\nc=1", "a={b=1,}", "a={b=1\n}", "a={\nb=1}", "a=[1,2,]", 'a="""\r\nx"""', 'a="x\ty"', 'a="\x7f"',
    "# \x7f", "a=1 # \x01", "\ufeffa=1", "a='''x'''''", "a=null", 'a="null"', '"".b=1', 'a."b.c"=1', "é=1", "",
    "a={}\n[a.b]", "[[a]]\n[a.b]\nc=1\n[[a]]", "a=[{b=1}]\n[[a]]", "a='x\ry'", "a=1\rb=2", "a=[07:32]", "a={b=07:32}",
    "a=" + "[" * 150 + "]" * 150, ".".join("a" * 150) + "=1", "a=1 b=2", "[a", "a", "a=", "= 1", "a={b=1, b=2}",
]  # fmt: skip


def outcome(read: Any, text: str) -> Any:
    """What a reader makes of a text, types and order included; nothing where it refuses."""
    try:
        return exact(read(text))
    except (ValueError, RecursionError):
        return None


def exact(value: Any) -> Any:
    if isinstance(value, dict):
        return [(key, exact(each)) for key, each in value.items()]
    if isinstance(value, list):
        return [exact(each) for each in value]
    return type(value), repr(value)


@pytest.mark.parametrize("text", ODD, ids=range(len(ODD)))
def test_odd_texts(text: str) -> None:
    assert outcome(load_toml, text) == outcome(tomllib.loads, text)


@pytest.mark.parametrize("path", DEMO, ids=lambda path: path.name)
def test_every_file_of_the_demo(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert outcome(load_toml, text) == outcome(tomllib.loads, text) != None  # noqa: E711


def test_files_with_characters_changed_at_random() -> None:
    chance = random.Random(8)
    texts = [path.read_text(encoding="utf-8") for path in DEMO]
    letters = "=[]{}\"'#.,\n\r\t -+:_0123456789eExTZabntrue\\\ufeffé\x00"
    pieces = [each.removeprefix("a=") for each in ODD]
    refused = 0
    for _ in range(1500):
        text = chance.choice(texts)
        start = chance.randrange(max(1, len(text) - 400))
        text = text[text.rfind("\n", 0, start) + 1 : start + 400]
        for _ in range(chance.randrange(1, 4)):
            at = chance.randrange(len(text) + 1)
            put = chance.choice(pieces) if chance.random() < 0.2 else chance.choice(letters)
            text = text[:at] + put + text[at + chance.randrange(3) :]
        expected = outcome(tomllib.loads, text)
        refused += expected is None
        assert outcome(load_toml, text) == expected, text
    assert 100 < refused < 1450, "nearly all were sound, or nearly none"
