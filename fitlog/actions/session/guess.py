"""Note what a person thinks that a test will show, before its first shot."""

from collections.abc import Mapping
from typing import Any

from fitlog.edits.tests import find_row, name_row, refuse_decided
from fitlog.history.message import Message
from fitlog.records.errors import Refusal, UsageError
from fitlog.records.models.session import MEASURES, REFERENCE, ref
from fitlog.records.wording.words import format_band
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.workspace.layout import session_file

Bands = Mapping[str, tuple[float, float]]


def note_guess(desk: Desk, player: str, where: str, bands: Bands) -> SaveResult:
    """Note a person's own 80 % band of each difference from the reference.

    ``bands``: by quantity, test minus reference, low and high in the quantity's unit. A second guess takes the
    first one's place as long as no shot was hit; the history keeps both.
    Raises Refusal for a reference, for a test that was hit, UsageError for a band or quantity that is none.
    """
    rows = [_row(key, *ends) for key, ends in bands.items()]
    if not rows:
        raise UsageError("no guess was given", do="write one such as carry_yd=2..8")
    player = desk.workspace.pick_player(player)
    session, _, test = desk.workspace.pick_test(player, where)
    if test.role == REFERENCE:
        raise Refusal("a guess is for a candidate, not for the reference", where=where, do="guess of a candidate")
    if test.shots:
        raise Refusal(
            f"this test has {len(test.shots)} shots already", where=where, do="note a guess before the first shot"
        )
    with saving(desk, settle_shots=True) as save:
        edited = save.open(session_file(player, session))
        row, place = find_row(edited, test.id)
        refuse_decided(row, where)
        who = desk.workspace.settings_at_hand().logger.name
        edited.become(("test", place, "guess"), {**({"by": who} if who else {}), "rows": rows})
        save.put_document(edited)
        text = ", ".join(format_band(each["metric"], each["low"], each["high"]) for each in rows)
        message = Message(f"{name_row(row, edited.table['test'])}: guess {text}", "guess", "", [player], [test.slot],
                          [ref(session, test.id)])  # fmt: skip
        return save.commit(message)


def _row(key: str, low: float, high: float) -> dict[str, Any]:
    if key not in MEASURES:
        raise UsageError(f"'{key}' is not a measured quantity", do="use one of " + ", ".join(MEASURES))
    if not low < high:
        raise UsageError(
            f"{key} from {low:g} to {high:g} is not a range", do="write the lower end first, such as 2..8"
        )
    return {"metric": key, "low": low, "high": high}
