"""Shots from a file: its path, the importer's map, and for a file with several setups which one."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, ClassVar

from rich.cells import cell_len
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from fitlog.records.errors import FitlogError
from fitlog.records.session import MEASURES
from fitlog.saving.desk import Desk
from fitlog.tui.base.worker import LOOKING
from fitlog.tui.dialogs.dialog import Dialog
from fitlog.tui.session.column_map import told
from fitlog.tui.text.numbers import head_of, quantity
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.scroll_text import ScrollText, bullet, line

if TYPE_CHECKING:
    from fitlog.actions.session.import_file import ImportResult
    from fitlog.actions.session.import_groups import Logged
    from fitlog.intake.preview import Preview
    from fitlog.intake.reading import Intake
    from fitlog.records.importer import Importer

_GUESS = ""
_ALL = "all of them, each to its club"
_WIDTH, _FIRST, _LEAST = 74, 2, 6


class ImportFile(Dialog[bool]):
    """The path is typed, Tab completes it; ↑ ↓ choose the importer. Enter shows first, and imports the second time.

    Of a file with several setups Tab chooses one then. The first importer that reads the file is taken, unless one is
    chosen; where none does, a map is proposed from the file. Ctrl+L says what each column is, of any map.
    """

    title_text = "Shots from a file"
    asks = "path"
    hint = "tab completes    ↑ ↓ importer    ⏎ looks into the file, ⏎ again imports    esc leaves"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "importer(-1)", show=False, priority=True),
        Binding("down", "importer(1)", show=False, priority=True),
        Binding("tab", "group", show=False, priority=True),
        Binding("ctrl+l", "columns", show=False, priority=True),
    ]

    def __init__(self, player: str, where: str) -> None:
        super().__init__(f"file {player}")
        self.player, self.where = player, where
        self.importers: list[str] = [_GUESS]
        self.at = 0
        self.picked = False  # whether a person chose the importer
        self.groups: list[str] = []
        self.group = ""
        self.looked = ""
        self.map: Importer | None = None
        self.preview: Preview | None = None
        self.agreed = ("", "")  # the file and group that a person takes though it names another club
        self.mapped = False  # the map is a person's own by now, and not yet saved

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="choices")
        yield ScrollText(id="seen")

    def on_mount(self) -> None:
        self.ask(lambda desk: desk.workspace.importers(), self._know)

    def _know(self, importers: Sequence[str]) -> None:
        self.importers = [*importers, _GUESS]
        if not importers:
            self.picked = True
        self._show()

    def _show(self) -> None:
        name = self.importers[self.at]
        said = safe(name) if name else "a new one, made from this file"
        out = [
            line(
                ("importer  ", "$ink-muted"),
                (said, "bold"),
                (f"   ↑ ↓ changes it ({self.at + 1} of {len(self.importers)})", "$ink-muted"),
            )
        ]
        if self.groups:
            out.append(
                line(
                    ("setup     ", "$ink-muted"),
                    (safe(self.group), "bold"),
                    (f"   tab changes it ({len(self.groups)} in the file)", "$ink-muted"),
                )
            )
        self.query_one("#choices", Static).update(line("\n").join(out))

    def typed(self, _: str) -> None:
        self._forget()

    def _forget(self) -> None:
        """Another file or importer: what was seen holds no longer."""
        self.looked, self.groups, self.map, self.preview, self.mapped = "", [], None, None, False
        self.query_one(ScrollText).show(line(""))
        self.hint_at(self.hint)

    def action_importer(self, by: int) -> None:
        """Another importer."""
        self.at = (self.at + by) % len(self.importers)
        self.picked = True
        self.trouble("")
        self._forget()
        self._show()

    def action_group(self) -> None:
        """Another setup of the file; before it was read, the path is completed."""
        if not self.looked:
            self.complete_path()
        elif self.groups:
            self.group = self.groups[(self.groups.index(self.group) + 1) % len(self.groups)]
            self._show()

    def submit(self, text: str) -> None:
        path = text.strip()
        if not path:
            self.trouble("a path is missing; type where the file is")
        elif self.looked == path:
            self._import(path)
        else:
            self._look(path)

    def _look(self, path: str) -> None:
        given = self.map
        names = [self.importers[self.at]] if self.picked or given else list(self.importers)

        def work(desk: Desk) -> "tuple[str, Importer, Preview]":
            from fitlog.actions.session.import_file import preview_importer, propose_importer

            for name in names:
                try:
                    chosen = given or (desk.workspace.importer(name) if name else None)
                    seen = (
                        name,
                        *(propose_importer(path) if chosen is None else (chosen, preview_importer(path, chosen))),
                    )
                except FitlogError:
                    if name == names[-1]:
                        raise
                    continue
                intake = seen[2].intake
                if name == names[-1] or (intake and intake.shots and not intake.absent):
                    return seen
            raise AssertionError("there is always a last one")

        self.busy = True
        self.ask(work, lambda found: self._seen(path, found), self.trouble, "look", LOOKING)

    def _seen(self, path: str, found: "tuple[str, Importer, Preview]") -> None:
        self.busy = False
        name, self.map, self.preview = found
        self.at = self.importers.index(name)
        self._show()
        intake = self.preview.intake
        if intake is None:
            self.query_one(ScrollText).show(_columns(self.preview))
            self.trouble("no column of this file was recognised; ^l says what each of them is")
            return
        self.looked = path
        self.groups = [*intake.groups, _ALL] if len(intake.groups) > 1 else []
        self.group = self.group if self.group in self.groups else self.groups[0] if self.groups else ""
        self.query_one(ScrollText).show([*self._told(intake), *_columns(self.preview)])
        another = "    tab: other setup" if self.groups else ""
        self.hint_at(f"⏎ imports these    ^l what each column is{another}    esc leaves")
        self._show()

    def _told(self, intake: "Intake") -> list[Content]:
        """How much comes in, what does not, and the first shots under the names of what they are."""
        units = self.services.units
        out = [line((told(intake.groups, len(intake.unreadable)), "bold"), f"; {len(intake.skipped)} lines skipped")]
        out += [row for each in intake.unreadable for row in bullet("!", "$ink-warn", str(each), "", _WIDTH)]
        if intake.absent:
            out += bullet("!", "$ink-warn", "not in the file: " + ", ".join(intake.absent), "", _WIDTH)
        first = [shot for shots in intake.groups.values() for shot in shots[:_FIRST]]
        keys = [key for key in MEASURES if any(key in shot for shot in first)]
        heads = [f"{head_of(key, units):>{_LEAST}}" for key in keys]
        while sum(cell_len(each) + 2 for each in heads) > _WIDTH:
            heads.pop()
        out += [line(""), line(("  ".join(heads), "$ink-muted"))]
        for name, shots in intake.groups.items():
            out += [line((safe(name), "bold"))] if name else []
            for shot in shots[:_FIRST]:
                cells = zip((units.text(key, shot.get(key)) for key in keys), heads, strict=False)
                out.append(line("  ".join(f"{cell:>{cell_len(head)}}" for cell, head in cells)))
        return [*out, line("")]

    def action_columns(self) -> None:
        """What each column is."""
        from fitlog.tui.session.column_map import ColumnMap

        if self.map is not None and self.preview is not None:
            self.app.push_screen(ColumnMap(self.line.value.strip(), self.map, self.preview), self._other_map)
        elif not self.busy:
            self.trouble("the file was not read yet; type its path and press Enter first")

    def _other_map(self, changed: "Importer | None") -> None:
        if changed is not None:
            self.trouble("")
            self.map, self.mapped = changed, True
            self._look(self.line.value.strip())

    def _import(self, path: str) -> None:
        if self.groups and self.group == _ALL:
            self._import_all(path)
            return
        importer, group, chosen, mapped = self.importers[self.at], self.group, self.map, self.mapped
        agreed = self.agreed == (path, group)

        def work(desk: Desk) -> "ImportResult":
            from fitlog.actions.session.import_file import import_shots, save_importer
            from fitlog.records.names import free_id

            name = importer
            if chosen is not None and (mapped or not importer):
                name = importer or free_id(chosen.name, desk.workspace.importers(), "shot-file")
                save_importer(desk, name, chosen)
            return import_shots(desk, self.player, self.where, path, name, group, other_club=agreed)

        def failed(text: str) -> None:
            if "--other-club" in text:  # the yes of a person at the screen is a second Enter
                self.agreed = (path, group)
                text = f"{text.partition(';')[0]}; Enter again takes them all the same, tab chooses other shots"
            self.trouble(text)

        self.busy = True
        self.save(work, self._imported, failed)

    def _import_all(self, path: str) -> None:
        """Bring every group in that says whose shots it is: one change."""
        name = self.importers[self.at] if not self.mapped else ""

        def work(desk: Desk) -> "Logged":
            from fitlog.actions.session.import_groups import import_groups
            from fitlog.views.session.groups import plan_file
            from fitlog.views.session.shot_file import look_into

            plan = plan_file(desk, self.player, look_into(desk, path, name), self.where.partition("#")[0])
            got = import_groups(desk, plan, plan.groups)
            left = [f"'{each.group}' was left aside: {each.where}" for each in plan.groups if not each.ready]
            return got._replace(done=got.done._replace(notes=(*got.done.notes, *left)))

        self.busy = True
        self.save(work, lambda got: self.finished(got.done, True), self.trouble)

    def _imported(self, found: "ImportResult") -> None:
        notes = [*found.done.notes, *found.unreadable, *found.odd]
        self.finished(found.done._replace(notes=tuple(notes)), True)


def _columns(seen: "Preview") -> list[Content]:
    """What the map makes of each column, and the columns that it leaves."""
    taken = [
        f"{each.header} → {quantity(each.column.key)}" + (f" in {each.column.unit}" if each.column.unit else "")
        for each in seen.columns
        if each.column
    ]
    left = [
        f"{each.header} ({', '.join(each.samples)})" if each.samples else each.header
        for each in seen.columns
        if each.column is None and not each.splits
    ]
    return [
        row
        for name, said in (("taken:", taken), ("left:", left))
        if said
        for row in bullet(name, "$ink-muted", "; ".join(said), "", _WIDTH)
    ]
