"""What looks wrong in a test's shots, worked out whenever a session opens.

It is worked out from the shots themselves.
"""

from collections.abc import Collection, Sequence

from fitlog.evidence.shots.unusual import far_from_rest, repeats_of
from fitlog.records.models.session import MEASURES, Shot
from fitlog.records.wording.display_units import DisplayUnits
from fitlog.records.wording.words import format_label
from fitlog.saving.desk import Desk
from fitlog.views.session.blind import hidden_in
from fitlog.views.session.usual_shots import usual_shots
from fitlog.views.verdict.evidence import display_units, suspicious

_ENOUGH_TO_REPEAT = 3  # two rounded values come again by chance over a season


def question_shots(
    shots: Sequence[Shot],
    known_shots: Sequence[Shot],
    units: DisplayUnits,
    only: Collection[str] = (),
    is_hidden: bool = False,
) -> dict[str, list[str]]:
    """What looks wrong in a test's counted shots, by id, in words and units given.

    ``known_shots`` are the player's shots with this club and swing in other tests; ``only`` are the ids asked about,
    all where there are none. The numbers of a hidden test are held against no others. What stands first says most.
    """
    asked = [each for each in shots if not each.excluded and (not only or each.id in only)]
    rest = [each for each in shots if not each.excluded and each not in asked]
    beside = [] if is_hidden else [each._asdict() for each in (*known_shots, *rest) if not each.excluded]
    far = far_from_rest([each._asdict() for each in asked], beside) if not is_hidden else [[] for _ in asked]
    twins = dict(
        zip((each.id for each in shots), repeats_of([_measured_values(each) for each in shots]), strict=True)
    )
    earlier = [] if is_hidden else [_measured_values(each) for each in known_shots if not each.excluded]
    places = repeats_of([*earlier, *map(_measured_values, asked)], _ENOUGH_TO_REPEAT)[len(earlier) :]
    out = {}
    for shot, found, place in zip(asked, far, places, strict=True):
        doubts = [
            f"{format_label(each.key)} {units.format(each.key, each.value)} is far from the others: "
            f"the middle of {each.shots} shots is {units.format(each.key, each.middle)}"
            for each in found
        ]
        if twins[shot.id]:
            doubts.append(f"exactly the same as shot {twins[shot.id]}")
        elif 0 < place <= len(earlier):
            doubts.append("exactly the same as another shot with this club")
        doubts += suspicious(_measured_values(shot), units)
        if doubts:
            out[str(shot.id)] = doubts
    return out


def question_logged(desk: Desk, player: str, where: str, ids: Collection[str]) -> list[str]:
    """What looks wrong in a test's new shots, beside the player's other ones."""
    _, record, test = desk.workspace.pick_test(player, where)
    own = {each.id for each in test.shots}
    others = [each for each in usual_shots(desk, player, test.slot, test.swing_name) if each.id not in own]
    is_hidden = hidden_in(record).has(test.id)
    found = question_shots(test.shots, others, display_units(desk), ids, is_hidden)
    return [f"shot {each}: {remark}" for each in ids for remark in found.get(each, ())]


def _measured_values(shot: Shot) -> dict[str, object]:
    return {key: value for key in MEASURES if (value := getattr(shot, key)) is not None}
