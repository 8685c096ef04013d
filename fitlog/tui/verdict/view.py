"""Draw the verdict: the evidence left, the choice and the picture right."""

from collections.abc import Sequence

from textual.containers import Container
from textual.content import Content
from textual.screen import Screen
from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.models.session import KEEP, REJECT, RETEST
from fitlog.records.wording.words import without_ids
from fitlog.tui.text.sanitize import safe
from fitlog.tui.text.units import Units
from fitlog.tui.verdict import text
from fitlog.tui.verdict.state import VerdictState
from fitlog.tui.widgets.line import Line
from fitlog.tui.widgets.picture import Picture
from fitlog.tui.widgets.scroll_text import ScrollText, line

_CHOICES = {KEEP: ("k", "keep"), REJECT: ("x", "reject"), RETEST: ("a", "again: retest")}


class VerdictView:
    """The widgets of the Verdict screen, and what they show of its state."""

    def __init__(self, screen: Screen[None], state: VerdictState) -> None:
        self._screen, self._state = screen, state
        self.evidence = ScrollText(id="evidence")
        self.reason = Line(id="reason", recalls=True)
        self._choice = Static("", id="choice", markup=False)
        self._change = ScrollText(id="change")
        self._reason_row = Container(Static("reason ›", id="reason-name", markup=False), self.reason, id="reason-row")
        self._picture = Picture(id="landing")
        self._decide = Container(self._choice, self._change, self._reason_row, self._picture, id="decide")

    def widgets(self) -> Sequence[Widget]:
        """What stands on the screen."""
        return (Container(self.evidence, self._decide, id="verdict"),)

    def show(self, units: Units) -> None:
        """Bring all of it up to date."""
        self.evidence.show(self._evidence_lines(units))
        self.show_choice(units)

    def _evidence_lines(self, units: Units) -> Sequence[Content] | Content:
        state = self._state
        if not state.is_read:
            return line(("reading the shots …", "$ink-muted"))
        if state.evidence is None or state.presentation is None:
            pieces = (("nothing waits for a verdict; ", "$ink-muted"), ("s", "bold $ink-accent"))
            return line(*pieces, (" shows the tests, and the verdicts given are opened there", "$ink-muted"))
        width = max(self.evidence.size.width - 3, 40)
        inside = () if self._is_wide else text.landing_lines(state.evidence, units, min(width, 64), 13)
        numbers = text.number_lines(state.evidence.test, state.evidence.reference, units)
        return text.evidence_lines(state.presentation, numbers, width, inside)

    @property
    def _is_wide(self) -> bool:
        return self._screen.has_class("-wide")

    def show_choice(self, units: Units) -> None:
        """Show the three decisions, what the chosen one changes, and the picture."""
        state = self._state
        self._decide.display = not state.is_read or state.evidence is not None
        self._choice.update(line(*(piece for each in _CHOICES for piece in self._choice_pieces(each))))
        self._reason_row.display = bool(state.decision)
        if state.evidence is None:
            self._change.show(Content(""))
            return
        width = max(self._change.size.width - 4, 30)
        if state.offer is not None:
            self._change.show(text.offer_lines(state.offer, width))
        else:
            self._change.show(text.choice_lines(state.evidence.test.verdict, width))
        self._show_picture(units)

    def _choice_pieces(self, decision: str) -> Sequence[tuple[str, str]]:
        key, name = _CHOICES[decision]
        here = decision == self._state.decision
        return (
            ("[" if here else " ", "bold $ink-accent"),
            (key, "bold $ink-accent"),
            (f" {name}", "bold" if here else ""),
            ("]" if here else " ", "bold $ink-accent"),
            ("  ", ""),
        )

    def _show_picture(self, units: Units) -> None:
        """The picture beside, in the room that the change above it leaves."""
        evidence = self._state.evidence
        if evidence is not None and self._is_wide:
            self._picture.show(lambda width, height: text.landing_lines(evidence, units, width - 1, height))

    def trail(self) -> tuple[str, ...]:
        """Where one is, for the top row."""
        state = self._state
        waiting = f"{len(state.pending)} to decide" if state.pending else ""
        name = state.presentation.ref if state.presentation else state.test_ref
        return tuple(filter(None, (safe(state.player_name), "verdict", safe(without_ids(name)), waiting)))
