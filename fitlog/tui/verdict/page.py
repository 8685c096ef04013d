"""The verdict: criteria, evidence, the decision, its reason and effect."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual import on
from textual.widget import Widget
from textual.widgets import Input

from fitlog.records.models.session import KEEP, REJECT, RETEST
from fitlog.records.naming.refs import TestRef
from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk
from fitlog.tui.base import pages
from fitlog.tui.base.commands import keys
from fitlog.tui.base.commands.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.commands import everywhere, player
from fitlog.tui.verdict.state import VerdictState
from fitlog.tui.verdict.text import ABOUT
from fitlog.tui.verdict.view import VerdictView
from fitlog.tui.widgets.scroll_text import ScrollText

if TYPE_CHECKING:
    from fitlog.saving.save import SaveResult
    from fitlog.views.verdict.preview import VerdictPreview

_NOTHING_WAITS = "nothing waits for a verdict here"


class VerdictPage(Page):
    """One test to decide."""

    kind = pages.VERDICT
    about = ABOUT
    AUTO_FOCUS = ""

    def __init__(self, player: str, where: str = "", slot: str = "") -> None:
        super().__init__(player)
        self.state = VerdictState(player, where, slot)
        self.view = VerdictView(self, self.state)

    def body(self) -> Sequence[Widget]:
        return self.view.widgets()

    # reading

    def read_stamp(self) -> ChangeStamp:
        session = TestRef.split(self.state.test_ref).session
        return change_stamp(self.services.root, [self.player], self.player, session)

    def load(self) -> None:
        test_ref, slot = self.state.test_ref, self.state.slot

        def work(desk: Desk) -> tuple[str, "VerdictPreview"]:
            from fitlog.views.verdict.preview import preview_verdict

            return desk.workspace.player(self.player).name, preview_verdict(desk, self.player, test_ref, slot)

        self.ask(work, self._show_verdict, group="verdict", holds_keys=True)

    def _show_verdict(self, loaded: tuple[str, "VerdictPreview"]) -> None:
        self.state.update(*loaded)
        self.stamp = self.read_stamp()
        self._recall()
        self._show()
        self.show_state()

    @property
    def slot(self) -> str:
        return self.state.slot

    # showing

    def trail(self) -> tuple[str, ...]:
        return self.view.trail()

    def _show(self) -> None:
        self.view.show(self.services.units)

    @on(ScrollText.Fitted)
    def on_resize(self) -> None:
        # the pads too: what is shown may be here before they have their first size
        if self.is_mounted and self.state.is_read:
            self.call_after_refresh(self._show)

    def scroller(self) -> ScrollText:
        return self.view.evidence

    # keys

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.SAVE_VERDICT, self._save_typed, self._is_decided),
            player.session(self),
            player.bench(self, lambda: self.state.test_ref),
            Command(keys.KEEP, lambda: self._decide(KEEP), self._can_decide),
            Command(keys.REJECT, lambda: self._decide(REJECT), self._can_decide),
            Command(keys.RETEST, lambda: self._decide(RETEST), self._can_decide),
            player.history(self),
            player.questions(self),
            everywhere.undo(self),
            Command(keys.SHEET, self._write_sheet, self._has_evidence),
            Command(keys.THEN, self._look_then, self._is_given),
            Command(keys.CRITERIA, self._edit_criteria, self._has_evidence),
            Command(keys.PLAN, self._plan, self._can_plan),
            everywhere.find(self),
            *everywhere.sync_commands(self),
            Command(keys.NEXT, lambda: self._turn(1), self._has_others),
            Command(keys.PREVIOUS, lambda: self._turn(-1), self._has_others),
            *everywhere.standard(self),
        )

    def _has_evidence(self) -> Availability:
        return needs(self.state.evidence, _NOTHING_WAITS)

    def _is_given(self) -> Availability:
        if self.services.past:
            return Availability(False)
        test = self.state.test
        return needs(test and test.verdict, "no verdict is given here yet; h shows the changes to look back to")

    def _can_decide(self) -> Availability:
        return needs(not self.state.is_read or self.state.evidence, _NOTHING_WAITS)

    def _is_decided(self) -> Availability:
        return needs(self.state.decision, "nothing is decided yet: k keeps, x rejects, a asks for a retest")

    def _has_others(self) -> Availability:
        return needs(len(self.state.pending) > 1, "no other test waits for a verdict")

    def _look_then(self) -> None:
        """Everything as it was when the verdict was given."""
        test_ref = self.state.test_ref

        def work(desk: Desk) -> str:
            from fitlog.views.verdict.verdict_change import verdict_change

            return verdict_change(desk, self.player, test_ref)

        self.ask(work, lambda change: self.services.look_at(change, self.player), group="then", holds_keys=True)

    def _edit_criteria(self) -> None:
        """What the test must show; a change after shots stays visible."""
        if self.state.test is not None:
            player.edit_criteria(self, self.state.test, self.state.test_ref)

    def _can_plan(self) -> Availability:
        if self.state.test is None:
            return self._has_evidence()
        return needs(not self.state.test.shots, "shots were hit already; a plan is made before the first")

    def _plan(self) -> None:
        """How many shots with each club, in what order, blind or open."""
        if self.state.test is not None:
            player.plan_shots(self, self.state.test, self.state.test_ref)

    def _write_sheet(self) -> None:
        """The verdict sheet into a file."""
        from fitlog.tui.dialogs.workspace.sheet import WriteVerdict
        from fitlog.views.evidence.headline import headline

        if self.state.evidence is not None:
            self.app.push_screen(WriteVerdict(self.player, self.state.test_ref, headline(self.state.evidence)))

    def _turn(self, by: int) -> None:
        """Show another test that waits."""
        if self.state.turn(by):
            with self.prevent(Input.Changed):
                self.view.reason.value = ""
            self._show()
            self.load()

    # deciding

    def _decide(self, decision: str) -> None:
        self.state.decision = decision
        self.view.show_choice(self.services.units)
        self.view.reason.focus()
        self.call_after_refresh(self.show_state)

    def _recall(self) -> None:
        """Bring back what was typed for this test, unless the line has something."""
        reason = self.view.reason
        if not reason.value and self.state.test_ref:
            with self.prevent(Input.Changed):
                reason.value = self.services.draft(self.state.purpose)
            reason.cursor_position = len(reason.value)

    @on(Input.Changed, "#reason")
    def _keep_reason(self, event: Input.Changed) -> None:
        if self.state.test_ref:
            self.services.keep_draft(self.state.purpose, event.value)

    @on(Input.Submitted, "#reason")
    def _submit(self, event: Input.Submitted) -> None:
        self._save(event.value)

    def _save_typed(self) -> None:
        self._save(self.view.reason.value)

    def _save(self, reason: str) -> None:
        """Save the verdict with its reason."""
        state = self.state
        if state.is_saving or not state.decision:
            return
        if self.services.shot_queue.queued_shots(self.player):
            self.notice("shots of this player are still being saved; press Enter again in a moment", "note")
            return
        if state.evidence is None:
            self.notice("the evidence is still being read; press Enter again in a moment", "note")
            return
        if not reason.strip():
            self.notice("a reason is missing; say in a few words why, you will want it next season", "trouble")
            return
        evidence, decision, purpose = state.evidence, state.decision, state.purpose
        state.is_saving = True

        def work(desk: Desk) -> "SaveResult":
            from fitlog.actions.verdict.decide import give_verdict
            from fitlog.views.verdict.evidence import numbers

            return give_verdict(
                desk, self.player, evidence.ref, decision, reason, evidence=numbers(evidence.assessment)
            )

        def then(result: "SaveResult") -> None:
            self.services.keep_draft(purpose, "")
            self._close(result)

        self.save(work, then, self._show_save_error)

    def _show_save_error(self, reason: str) -> None:
        self.state.is_saving = False
        self.notice(f"{reason}; the reason is kept", "trouble")

    def _close(self, result: "SaveResult") -> None:
        self.state.is_saving = False
        self.app.pop_screen()
        self.services.show_notice("; ".join([result.subject, *result.notes, f"undo: {keys.UNDO.key} on the bag"]))

    def back(self) -> None:
        """Go from the reason to the choice, or to the screen before."""
        if self.state.is_saving:
            return
        if self.state.decision:
            self.state.decision = ""
            self.set_focus(None)
            self.view.show_choice(self.services.units)
            self.call_after_refresh(self.show_state)
        else:
            super().back()
