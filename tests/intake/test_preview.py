"""What a screen shows while a person confirms a map."""

import pytest

from fitlog.intake.preview import ColumnPreview, preview
from fitlog.records.errors import Refusal
from fitlog.records.models.importer import Column, Importer

DATA = b"Bay 2\nClub,Carry,Side\n,[m],[m]\nOak,200,1\nOak,x,2\nAlder,202,\nOak,203,4\nOak,204,5\n"
METRIC = Importer("Bay", header_word="Carry", group="Club", column=(Column("Carry", "carry_yd", "m"),))


def test_columns_samples_and_outcome() -> None:
    seen = preview(DATA, METRIC)
    assert seen.columns == (
        ColumnPreview(1, "Club", ("Oak", "Oak", "Alder"), None, True),
        ColumnPreview(2, "Carry", ("200", "x", "202"), METRIC.column[0], False),
        ColumnPreview(3, "Side", ("1", "2", "4"), None, False),
    )
    assert seen.intake is not None
    assert {name: len(shots) for name, shots in seen.intake.groups.items()} == {"Oak": 3, "Alder": 1}
    assert [row.line for row in seen.intake.unreadable] == [5]


def test_a_map_without_columns_shows_what_there_is_to_choose_from() -> None:
    seen = preview(DATA, METRIC._replace(column=()))
    assert [column.header for column in seen.columns] == ["Club", "Carry", "Side"]
    assert seen.intake is None


def test_a_file_the_map_cannot_read_is_refused_as_at_import() -> None:
    with pytest.raises(Refusal, match="holds the word 'Flug'"):
        preview(DATA, METRIC._replace(header_word="Flug"))
