"""Parts in stock: listed, picked, and with their values."""

import pytest

from fitlog.records.errors import UsageError
from fitlog.saving.desk import Desk
from fitlog.views.details.parts import list_parts, parse_shelf, part_values, pick_part
from tests.views.bench.stocked import stocked


@pytest.fixture
def stock(desk: Desk) -> Desk:
    """The small workspace with parts in stock."""
    return stocked(desk)


def test_a_broken_part_is_listed_with_its_trouble(stock: Desk) -> None:
    with open(f"{stock.root}/parts/grips/abb.toml", "a") as file:
        file.write("nonsense\n")
    broken, sound = list_parts(stock, "grip")
    assert (broken.id, broken.model) == ("abb", "")
    assert "abb.toml" in broken.trouble
    assert (sound.model, sound.trouble) == ("Jute Cord", "")
    assert {each.shelf for each in list_parts(stock)} == {"heads", "shafts", "grips"}


def test_a_part_is_picked_by_its_id_its_start_or_its_shelf(stock: Desk) -> None:
    for text in ("oak-10", "oak-1", "head/oak-10", "heads/oak-1"):
        assert pick_part(stock, text) == ("heads", "oak-10")
    for text in ("oak", "nothing", "socks/oak-10"):
        with pytest.raises(UsageError):
            pick_part(stock, text)


def test_every_value_has_a_label_and_words(stock: Desk) -> None:
    shelf, name, values = part_values(stock, "oak-8")
    words = {each.label: each.words for each in values}
    assert (shelf, name) == ("heads", "oak-8")
    assert words["head loft"] == "8°"
    assert words["position high: loft change"] == "1°"
    assert "back 6" in words["weights"]
    with pytest.raises(UsageError, match="'sock' is not a kind of part"):
        parse_shelf("sock")
