"""The words of values: each heading short, and each meaning of a key that there is."""

from fitlog.records.models import bag, importer, part, player, session, settings, setup
from fitlog.records.schema.fields import kinds_of
from fitlog.records.wording.glossary import KEY_MEANINGS, shot_heading

RECORDS = (
    bag.Bag, bag.Club, bag.MakeUp, importer.Importer, importer.Column, part.Stock, player.Player, session.Session,
    session.ClubTest, session.Shot, session.Criterion, session.Verdict, session.Source, settings.Settings,
    setup.Setup, setup.Head, setup.Shaft, setup.Grip, setup.Weight, setup.SoleMark,
)  # fmt: skip


def test_every_meaning_is_of_a_key_that_some_file_has() -> None:
    known = {key for record in RECORDS for key in kinds_of(record)}
    assert {key for key in KEY_MEANINGS if key.rpartition(".")[2] not in known} == set()


def test_headings_of_shots_are_short_and_no_two_alike() -> None:
    heads = {key: shot_heading(key, kind.label) for key, kind in kinds_of(session.Shot).items()}
    measured = [heads[key] for key in session.MEASURES]
    assert len(set(measured)) == len(measured)
    assert max(map(len, measured)) <= 11
    assert shot_heading("smell", "smell of the ball") == "smell of the ball"
