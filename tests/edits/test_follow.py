"""What follows from a change of a club, with the parts in stock."""

import pytest

from fitlog.edits.follow import check_models, follow
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from tests.views.bench.stocked import stocked


@pytest.fixture
def stock(desk: Desk) -> Desk:
    """The small workspace with parts in stock."""
    return stocked(desk)


def test_a_model_that_only_begins_to_name_a_part_is_asked_about(stock: Desk) -> None:
    with pytest.raises(Refusal, match=r"head.model: 'oak' may mean Oak 10 \(oak-10\), Oak 8 \(oak-8\)"):
        check_models(stock, {"head.model": "oak"})


def test_a_model_as_it_is_called_and_one_that_nothing_resembles_are_taken(stock: Desk) -> None:
    for model in ("oak 8", "Birch 9"):
        assert check_models(stock, {"head.model": model}) == {"head.model": model}


def test_a_mark_before_a_model_takes_it_as_it_stands_and_lets_the_part_go(stock: Desk) -> None:
    assert check_models(stock, {"head.model": "'Oak"}) == {"head.model": "Oak", "head.part": None}


def test_a_part_that_is_named_beside_the_model_is_not_asked_about(stock: Desk) -> None:
    values = {"head.model": "oak", "head.part": "oak-10"}
    assert check_models(stock, values) == values


def test_a_head_in_stock_brings_its_data(stock: Desk) -> None:
    before = {"head.model": "Oak 8", "head.part": "oak-8", "head.mass_g": 197.0}
    found = follow(stock, before, {"head.model": "Oak 10"})
    assert found.values == {"head.model": "Oak 10", "head.part": "oak-10", "head.mass_g": 199.0}
    assert [each.key for each in found.effects] == ["head.part", "head.mass_g"]


def test_a_broken_part_is_as_if_it_were_not_there(stock: Desk) -> None:
    with open(f"{stock.root}/parts/heads/oak-10.toml", "a") as file:
        file.write("nonsense\n")
    assert check_models(stock, {"head.model": "Oak 10"})["head.model"] == "Oak 10"
