"""The verdict: what the test had to show, what its shots say; the decision, the reason, and what it will change."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar

from textual import on
from textual.containers import Container
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Input, Static

from fitlog.records.refs import TestRef
from fitlog.records.session import KEEP, REJECT, RETEST
from fitlog.saving.change_stamp import ChangeStamp, change_stamp
from fitlog.saving.desk import Desk
from fitlog.tui.base import keys, pages
from fitlog.tui.base.command import Availability, Command, needs
from fitlog.tui.base.page import Page
from fitlog.tui.commands import everywhere, player
from fitlog.tui.text.sanitize import safe
from fitlog.tui.verdict.text import ABOUT, choice_lines, evidence_lines, landing_of, offer_lines
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.picture import Picture
from fitlog.tui.widgets.scroll_text import ScrollText, line

if TYPE_CHECKING:
    from fitlog.saving.save import Done
    from fitlog.views.verdict.preview import VerdictPreview

_NOTHING_WAITS = "nothing waits for a verdict here"
_SAID = {KEEP: ("k", "keep"), REJECT: ("x", "reject"), RETEST: ("a", "again: retest")}


class VerdictPage(Page):
    """One test to decide."""

    kind = pages.VERDICT
    about = ABOUT
    AUTO_FOCUS = ""
    CHOICES: ClassVar[tuple[str, ...]] = (KEEP, REJECT, RETEST)

    def __init__(self, player: str, where: str = "", slot: str = "") -> None:
        super().__init__(player)
        self.player_name = player
        self.where = where
        self._slot = slot
        self.found: VerdictPreview | None = None
        self.decision = ""
        self.saving = False

    def body(self) -> Sequence[Widget]:
        return (
            Container(
                ScrollText(id="evidence"),
                Container(
                    Static("", id="choice", markup=False),
                    ScrollText(id="change"),
                    Container(
                        Static("reason ›", id="reason-name", markup=False),
                        Line(id="reason", recalls=True),
                        id="reason-row",
                    ),
                    Picture(id="landing"),
                    id="decide",
                ),
                id="verdict",
            ),
        )

    # reading

    def read_stamp(self) -> ChangeStamp:
        return change_stamp(self.services.root, [self.player], self.player, TestRef.split(self.where).session)

    def load(self) -> None:
        def work(desk: Desk) -> tuple[str, "VerdictPreview"]:
            from fitlog.views.verdict.preview import preview_verdict

            return desk.workspace.player(self.player).name, preview_verdict(desk, self.player, self.where, self._slot)

        self.ask(work, self._loaded, group="verdict", holds_keys=True)

    def _loaded(self, found: tuple[str, "VerdictPreview"]) -> None:
        self.player_name, self.found = found
        evidence = self.found.evidence
        if evidence is not None and self.where != evidence.ref:
            self.where = evidence.ref
        self.stamp = self.read_stamp()
        self._recall()
        self._show()
        self.show_state()

    @property
    def slot(self) -> str:
        test = self.found.evidence.test if self.found and self.found.evidence else None
        if test is None:
            return self._slot
        return test.address

    # showing

    def trail(self) -> tuple[str, ...]:
        waiting = len(self.found.pending) if self.found else 0
        return tuple(
            filter(
                None, (safe(self.player_name), "verdict", safe(self.where), f"{waiting} to decide" if waiting else "")
            )
        )

    def _show(self) -> None:
        pad = self.query_one("#evidence", ScrollText)
        found = self.found
        if found is None:
            pad.show(line(("reading the shots …", "$ink-muted")))
        elif found.evidence is None:
            pieces = (("nothing waits for a verdict; ", "$ink-muted"), ("s", "bold $ink-accent"))
            pad.show(line(*pieces, (" shows the tests, and the verdicts given are opened there", "$ink-muted")))
        else:
            width = max(pad.size.width - 3, 40)
            wide = self.has_class("-wide")
            inside = () if wide else landing_of(found.evidence, self.services.units, min(width, 64), 13)
            pad.show(evidence_lines(found.evidence, found.context, self.services.units, width, inside))
        self._show_choice()
        self._show_change()

    def _show_landing(self) -> None:
        """The picture beside, in the room that the change above it leaves."""
        if self.found is None or self.found.evidence is None or not self.has_class("-wide"):
            return
        evidence, units = self.found.evidence, self.services.units
        self.query_one("#landing", Picture).show(lambda width, height: landing_of(evidence, units, width - 1, height))

    def _show_choice(self) -> None:
        if self.found is not None and self.found.evidence is None:
            self.query_one("#decide").display = False
            return
        self.query_one("#decide").display = True
        pieces = []
        for each in self.CHOICES:
            key, name = _SAID[each]
            here = each == self.decision
            pieces += [
                ("[" if here else " ", "bold $ink-accent"), (key, "bold $ink-accent"),
                (f" {name}", "bold" if here else ""),
                ("]" if here else " ", "bold $ink-accent"), ("  ", ""),
            ]  # fmt: skip
        self.query_one("#choice", Static).update(line(*pieces))
        self.query_one("#reason-row").display = bool(self.decision)

    def _show_change(self) -> None:
        pad = self.query_one("#change", ScrollText)
        found = self.found
        if found is None or found.evidence is None:
            pad.show(Content(""))
            return
        width = max(pad.size.width - 4, 30)
        if self.decision:
            pad.show(offer_lines(found.offers[self.decision], found.evidence.test.id, width))
        else:
            pad.show(choice_lines(found.evidence.test.verdict, width))
        self._show_landing()

    @on(ScrollText.Fitted)
    def on_resize(self) -> None:
        # the pads too: what is shown may be here before they have their first size
        if self.is_mounted and self.found:
            self.call_after_refresh(self._show)

    def scroller(self) -> ScrollText:
        return self.query_one("#evidence", ScrollText)

    # deciding

    def commands(self) -> Sequence[Command]:
        return (
            Command(keys.SAVE_VERDICT, self._save_typed, self._is_decided),
            player.session(self),
            player.bench(self, lambda: self.where),
            Command(keys.KEEP, lambda: self._decide(KEEP), self._can_decide),
            Command(keys.REJECT, lambda: self._decide(REJECT), self._can_decide),
            Command(keys.RETEST, lambda: self._decide(RETEST), self._can_decide),
            player.history(self),
            player.questions(self),
            everywhere.undo(self),
            Command(keys.SHEET, self._write_sheet, self._has_evidence),
            Command(keys.THEN, self._look_then, self._is_given),
            Command(keys.CRITERIA, self._edit_criteria, self._has_evidence),
            everywhere.find(self),
            *everywhere.sharing(self),
            Command(keys.NEXT, lambda: self._turn(1), self._has_others),
            Command(keys.PREVIOUS, lambda: self._turn(-1), self._has_others),
            *everywhere.standard(self),
        )

    def _has_evidence(self) -> Availability:
        return needs(self.found and self.found.evidence, _NOTHING_WAITS)

    def _is_given(self) -> Availability:
        if self.services.past:
            return Availability(False)
        test = self.found.evidence.test if self.found and self.found.evidence else None
        return needs(test and test.verdict, "no verdict is given here yet; h shows the changes to look back to")

    def _look_then(self) -> None:
        """Everything as it was when the verdict was given."""
        where = self.where

        def work(desk: Desk) -> str:
            from fitlog.views.verdict.given import verdict_change

            return verdict_change(desk, self.player, where)

        self.ask(work, lambda change: self.services.look_at(change, self.player), group="then", holds_keys=True)

    def _can_decide(self) -> Availability:
        return needs(self.found is None or self.found.evidence, _NOTHING_WAITS)

    def _is_decided(self) -> Availability:
        return needs(self.decision, "nothing is decided yet: k keeps, x rejects, a asks for a retest")

    def _has_others(self) -> Availability:
        return needs(self.found and len(self.found.pending) > 1, "no other test waits for a verdict")

    def _decide(self, decision: str) -> None:
        self.decision = decision
        self._show_choice()
        self._show_change()
        self.query_one("#reason", Line).focus()
        self.call_after_refresh(self.show_state)

    def _purpose(self) -> str:
        return f"verdict {self.player} {self.where}"

    def _recall(self) -> None:
        """What was typed for this test before, unless something stands in the line already."""
        reason = self.query_one("#reason", Line)
        if not reason.value and self.where:
            with self.prevent(Input.Changed):
                reason.value = self.services.draft(self._purpose())
            reason.cursor_position = len(reason.value)

    @on(Input.Changed, "#reason")
    def _typed(self, event: Input.Changed) -> None:
        if self.where:
            self.services.keep_draft(self._purpose(), event.value)

    @on(Input.Submitted, "#reason")
    def _submit(self, event: Input.Submitted) -> None:
        self._save(event.value)

    def _save_typed(self) -> None:
        self._save(self.query_one("#reason", Line).value)

    def _save(self, reason: str) -> None:
        """Save the verdict with its reason."""
        if self.saving or not self.decision:
            return
        found, decision = self.found, self.decision
        if self.services.shot_queue.waiting(self.player):
            self.notice("shots of this player are still being saved; press Enter again in a moment", "note")
            return
        if found is None or found.evidence is None:
            self.notice("the evidence is still being read; press Enter again in a moment", "note")
            return
        if not reason.strip():
            self.notice("a reason is missing; say in a few words why, you will want it next season", "trouble")
            return
        evidence, purpose = found.evidence, self._purpose()
        self.saving = True

        def work(desk: Desk) -> "Done":
            from fitlog.actions.verdict.decide import give_verdict
            from fitlog.views.verdict.evidence import numbers

            return give_verdict(desk, self.player, evidence.ref, decision, reason, known=numbers(evidence.assessment))

        def then(done: "Done") -> None:
            self.services.keep_draft(purpose, "")
            self._given(done)

        self.save(work, then, self._not_saved)

    def _not_saved(self, said: str) -> None:
        self.saving = False
        self.notice(said + "; the reason is kept", "trouble")

    def _given(self, done: "Done") -> None:
        self.saving = False
        self.app.pop_screen()
        self.services.show_notice("; ".join([done.subject, *done.notes]))

    def _edit_criteria(self) -> None:
        """What the test must show; a change after shots stays visible."""
        if self.found is not None and self.found.evidence is not None:
            player.edit_criteria(self, self.found.evidence.test, self.where)

    def _write_sheet(self) -> None:
        """The verdict sheet into a file."""
        from fitlog.tui.dialogs.sheet import verdict_sheet

        self.app.push_screen(verdict_sheet(self.player, self.where))

    def _turn(self, by: int) -> None:
        """Show another test that waits."""
        names = self.found.pending if self.found else ()
        if len(names) > 1:
            at = names.index(self.where) if self.where in names else 0
            self.where = names[(at + by) % len(names)]
            self.found = None
            with self.prevent(Input.Changed):
                self.query_one("#reason", Line).value = ""
            self._show()
            self.load()

    def back(self) -> None:
        """From the reason back to the choice; from there to the screen before. What is typed is kept."""
        if self.saving:
            return
        if self.decision:
            self.decision = ""
            self.set_focus(None)
            self._show_choice()
            self._show_change()
            self.call_after_refresh(self.show_state)
        else:
            super().back()
