"""The story of one part over all players."""

from fitlog.saving.desk import Desk
from fitlog.views.search.part_story import part_ids, part_story
from tests.views.search.test_finder import shop

__all__ = ["shop"]


def test_a_part_in_stock_has_what_its_file_states(desk: Desk) -> None:
    from fitlog.actions.parts import add_part

    add_part(desk, "shafts", {"model": "Osier 75", "mass_g": 77.0})
    for name in ("osier-75", "Osier 75"):
        story = part_story(desk, name)
        assert (story.model, story.part, story.stated_values) == ("Osier 75", "osier-75", (("shaft weight", "77 g"),))
        assert (story.tests, story.record, story.effect.effects, story.shots) == ((), None, (), 0)
    assert part_ids(desk.root) == ["osier-75"]


def test_a_model_in_no_file_has_its_tests_and_verdicts(shop: Desk) -> None:
    story = part_story(shop, "Sedge 80")
    assert (story.part, story.stated_values) == ("", ())
    assert story.record is not None
    assert (story.record.rejected, story.record.reasons) == (1, (("too stiff late in the day", 1),))
    assert [hit.decision for hit in story.tests] == ["reject"]
    assert story.effect.tests == 1
