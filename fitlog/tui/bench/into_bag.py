"""From the bench into the bag: what would change, and the reason."""

from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.confirm import Answer, Confirm, Preview
from fitlog.views.bench.setup import Work, plan_bag


def into_bag(player: str, work: Work) -> Confirm:
    """The question whether what was changed on the bench goes into the bag's club.

    The action asks for the reason, unless the workspace needs none for what is measured.
    """

    def plan(desk: Desk, _: str, __: str) -> Preview:
        return Preview(plan_bag(desk, work))

    def action(desk: Desk, answer: Answer) -> SaveResult:
        from fitlog.actions.bag.from_bench import to_bag

        return to_bag(desk, work, answer.text)

    return Confirm(f"Into the bag: {work.slot}", plan, action, draft=f"bench reason {player}", must_type=False)
