from __future__ import annotations

import pytest

from fitlog.bench.building.cautions import lines


@pytest.mark.parametrize(
    "word", ["respirator", "gloves", "cure", "Heat", "eye protection", "Pull test", "Indoors", "data sheet"]
)
def test_each_hazard_has_its_line(word: str) -> None:
    assert any(word in line for line in lines())


def test_every_line_is_tagged_or_defers() -> None:
    *cautions, last = lines()
    assert all(line.endswith("(common practice)") for line in cautions)
    for authority in ("adhesive's", "shaft's own data sheets", "local codes", "trained practice"):
        assert authority in last
