"""A shot file looked into: which importer reads it."""

from fitlog.actions.session.import_file import save_importer
from fitlog.records.models.importer import Column, Importer
from fitlog.saving.desk import Desk
from fitlog.views.session.shot_file import look_into


def test_of_two_maps_that_fit_the_one_with_most_columns_reads_the_file(desk: Desk, file: str) -> None:
    save_importer(desk, "a-carry", Importer("a", column=(Column("Carry", "carry_yd"),)))
    save_importer(desk, "both", Importer("b", column=(Column("Carry", "carry_yd"), Column("Side", "offline_yd"))))
    assert look_into(desk, file).importer_id == "both"
