"""What was done last or went wrong: a sentence that stays until the next."""

from textual.content import Content

from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.paragraph import Paragraph

_MARKS = {"done": ("✓ ", "$ink-good"), "note": ("· ", "$ink-accent"), "trouble": ("! ", "bold $ink-bad")}


class Notice(Paragraph):
    """One sentence, in at most six rows; no row at all while there is none."""

    def __init__(self) -> None:
        super().__init__()
        self.text = ""

    def say(self, text: str, kind: str = "done") -> None:
        """Show a sentence; an empty one clears the place."""
        if not text and not self.text:
            return
        self.text = safe(text)
        mark, style = _MARKS[kind]
        self.display = bool(text)
        self.update(Content.assemble((mark, style), (self.text, style if kind == "trouble" else "$foreground")))
