"""A file of several clubs: which group of its shots goes to which club and test."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.naming.refs import ClubRef
from fitlog.saving.desk import Desk
from fitlog.tui.dialogs.list_dialog import ListDialog
from fitlog.tui.session.files.preview import describe_count, last_lines, trouble_lines
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Column, Row
from fitlog.tui.widgets.scroll_text import line
from fitlog.views.session.groups import GroupPlan, names_other_club, place_group

if TYPE_CHECKING:
    from fitlog.actions.session.import_groups import LogResult
    from fitlog.views.session.groups import FilePlan

_HEADS = (Column("in the file", 14, grow=1), Column("shots", 5, right=True), Column("goes to", 44, grow=4))


class GroupTable(ListDialog[bool]):
    """The groups of a file; a club is typed for one, Enter imports those ready."""

    title_text = "Which shots belong to which club"
    asks = "club"
    hint = "⏎ imports them    ↑ ↓ a group, type its club or test (- skips it) and ⏎    esc leaves"

    def __init__(self, plan: "FilePlan") -> None:
        super().__init__()
        self.plan = plan
        self.confirmed_groups: tuple[GroupPlan, ...] = ()  # what a person takes though the file calls it another club

    def middle(self) -> Iterable[Widget]:
        seen = self.plan.file.preview
        rows = [describe_count(seen.intake), *trouble_lines(seen.intake)] if seen.intake else []
        yield Static(line("\n").join(rows), classes="says", markup=False)
        yield self.list_rows(_HEADS)
        yield Static(line("\n").join(last_lines(seen.last)), classes="says", markup=False)

    def on_mount(self) -> None:
        self._show()

    def _show(self) -> None:
        self.rows.show([self._row(each) for each in self.plan.groups])

    def _row(self, each: GroupPlan) -> Row:
        where = safe(each.where)
        if self._is_other(each):
            where += " (another club)"
        tone = "warn" if self._is_other(each) else "" if each.ready else "muted"
        return Row(each.group, [safe(each.group), str(each.shots), (where, tone)])

    def _is_other(self, each: GroupPlan) -> bool:
        return each.ready and names_other_club(each.group, ClubRef.parse(each.club).slot)

    def submit(self, text: str, /) -> None:
        if text.strip():
            self._place(self.rows.key, text)
        else:
            self._import()

    def take(self, _: str, /) -> None:
        """A click on a group marks it alone."""

    def _place(self, group: str, target: str) -> None:
        self.ask(
            lambda desk: place_group(desk, self.plan, group, target),
            self._show_plan,
            self.trouble,
            "place",
            holds_keys=True,
        )

    def _show_plan(self, plan: "FilePlan") -> None:
        self.plan = plan
        self.line.value = ""
        self._show()
        self.rows.action_move(1)

    def _import(self) -> None:
        others = tuple(each for each in self.plan.groups if self._is_other(each))
        if others and self.confirmed_groups != others:
            self.confirmed_groups = others
            names = ", ".join(f"'{each.group}' to {each.club}" for each in others)
            self.trouble(f"{names}: the file names another club; ⏎ again takes them all the same")
            return
        plan = self.plan

        def work(desk: Desk) -> "LogResult":
            from fitlog.actions.session.import_groups import import_groups

            got = import_groups(desk, plan, plan.groups)
            left = [f"'{each.group}' was skipped: {each.where}" for each in plan.groups if not each.ready]
            return got._replace(saved=got.saved._replace(notes=(*got.saved.notes, *left)))

        self.do(work, lambda got: self.close_with(got.saved, True))
