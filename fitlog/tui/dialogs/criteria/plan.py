"""Plan a session's tests before the first shot: number, order, blindness."""

from fitlog.records.errors import Refusal
from fitlog.records.models.plan import BLOCKS, MIRRORED
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.confirm import Answer, Confirm, Option, Preview

_OPEN, _BLIND = "open", "blind"


def plan_test(player: str, session: str, slot: str) -> Confirm:
    """Enter plans as many shots as are typed with each club of the slot."""

    def plan(desk: Desk, order: str, text: str) -> Preview:
        from fitlog.actions.session.plan import plannable_tests

        tests = plannable_tests(desk.workspace.session(player, session), slot)
        how = "in random order within blocks" if order == BLOCKS else "in mirrored order: A B B A"
        lines = [
            f"{slot}: the reference and {len(tests) - 1} to compare, {how}",
            "no result is shown before all are hit; then one look decides, which costs fewer shots",
        ]
        if text == _BLIND:
            lines.append("the clubs go by codes drawn at random; who hits does not know which is which")
        return Preview(lines)

    def action(desk: Desk, answer: Answer) -> SaveResult:
        from fitlog.actions.session.plan import plan_tests

        typed = answer.text.strip()
        if not typed.isdecimal():
            what = f"'{typed}' is not a whole number" if typed else "the number of shots is missing"
            raise Refusal(what, do="type how many to hit with each club, such as 12")
        return plan_tests(desk, player, session, int(typed), answer.place, answer.scope == _BLIND, slot).saved

    return Confirm(
        "Plan the shots",
        plan,
        action,
        [Option("random within blocks", BLOCKS), Option("mirrored", MIRRORED)],
        [Option("open: the clubs are known", _OPEN), Option("blind: the clubs go by a code", _BLIND)],
        asks="shots with each club",
        must_type=False,
        names=("seen", "order"),
    )
