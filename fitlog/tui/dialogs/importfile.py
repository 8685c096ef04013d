"""Shots from a file: its path, the importer's map, and for a file with several setups which one."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from fitlog.actions.desk import Desk
from fitlog.records.words import label
from fitlog.tui.clerk import ASKED, LOOKING
from fitlog.tui.dialogs.base import Dialog
from fitlog.tui.safe import safe
from fitlog.tui.widgets.pad import Pad, line

if TYPE_CHECKING:
    from fitlog.actions.importing import Imported
    from fitlog.intake.preview import Preview

_GUESS = ""


class ImportFile(Dialog[bool]):
    """The path is typed; ↑ ↓ choose the importer, Tab the setup. Enter shows first, and imports the second time."""

    title_text = "Shots from a file"
    asks = "path"
    hint = "↑ ↓ importer    ⏎ looks into the file, ⏎ again imports it    esc leaves"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "importer(-1)", show=False, priority=True),
        Binding("down", "importer(1)", show=False, priority=True),
        Binding("tab", "group", show=False, priority=True),
    ]

    def __init__(self, player: str, where: str) -> None:
        super().__init__(f"file {player}")
        self.player, self.where = player, where
        self.importers: list[str] = [_GUESS]
        self.at = 0
        self.groups: list[str] = []
        self.group = ""
        self.looked = ""

    def middle(self) -> Iterable[Widget]:
        yield Static("", classes="says", markup=False, id="choices")
        yield Pad(id="seen")

    def on_mount(self) -> None:
        self.ask(lambda desk: desk.workspace.importers(), self._know)

    def _know(self, importers: Sequence[str]) -> None:
        self.importers = [*importers, _GUESS]
        self._show()

    def _show(self) -> None:
        name = self.importers[self.at]
        said = safe(name) if name else "none yet: make one from this file"
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
        self.looked = ""
        self.groups = []

    def action_importer(self, by: int) -> None:
        """Another importer."""
        self.at = (self.at + by) % len(self.importers)
        self.looked = ""
        self._show()

    def action_group(self) -> None:
        """Another setup of the file."""
        if self.groups:
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
        importer = self.importers[self.at]

        def work(desk: Desk) -> "Preview":
            from fitlog.actions.importing import propose, try_map

            if importer:
                return try_map(path, desk.workspace.importer(importer))
            return propose(path)[1]

        self.busy = True
        self.ask(work, lambda seen: self._seen(path, seen), self.trouble, "look", LOOKING)

    def _seen(self, path: str, seen: "Preview") -> None:
        self.busy = False
        intake = seen.intake
        if intake is None:
            self.query_one(Pad).show(_columns(seen))
            self.trouble(
                "no column of this file could be told; write an importer's map by hand, see the files in importers/"
            )
            return
        self.looked = path
        self.groups = list(intake.groups) if len(intake.groups) > 1 else []
        self.group = self.groups[0] if self.groups else ""
        count = sum(map(len, intake.groups.values()))
        out = [
            line(
                (f"{count} shots", "bold"),
                f", {len(intake.skipped)} lines skipped, {len(intake.unreadable)} cells that cannot be read",
            )
        ]
        out += [line(("! ", "$ink-warn"), safe(each)) for each in intake.unreadable]
        out += _columns(seen)
        out += [line(("not in the file: ", "$ink-muted"), safe(", ".join(intake.absent)))] if intake.absent else []
        for name, shots in intake.groups.items():
            for shot in shots[:2]:
                said = "  ".join(
                    f"{key} {value:g}" if isinstance(value, float) else f"{key} {value}"
                    for key, value in shot.items()
                )
                out.append(line((f"{safe(name)}  " if name else "  ", "$ink-muted"), safe(said)))
        self.query_one(Pad).show(out)
        self.hint_at("⏎ imports these    tab: another setup of the file    esc leaves")
        self._show()

    def _import(self, path: str) -> None:
        importer, group = self.importers[self.at], self.group

        def work(desk: Desk) -> "Imported":
            from fitlog.actions.importing import import_shots, propose, save_importer
            from fitlog.tui.dialogs.newplayer import id_from

            chosen = importer
            if not chosen:
                proposed, _ = propose(path)
                chosen = id_from(proposed.name)
                save_importer(desk, chosen, proposed)
            return import_shots(desk, self.player, self.where, path, chosen, group)

        self.busy = True
        self.ask(work, self._imported, self.trouble, urgency=ASKED)

    def _imported(self, found: "Imported") -> None:
        notes = [*found.done.notes, *found.unreadable, *found.odd]
        self.finished(found.done._replace(notes=tuple(notes)), True)


def _columns(seen: "Preview") -> list[Content]:
    """What the map makes of each column, and the columns that it leaves."""
    taken = [
        f"{each.header} → {label(each.column.key)}" + (f" in {each.column.unit}" if each.column.unit else "")
        for each in seen.columns
        if each.column
    ]
    left = [
        f"{each.header} ({', '.join(each.samples)})" if each.samples else each.header
        for each in seen.columns
        if each.column is None and not each.splits
    ]
    return [
        line((f"{name}: ", "$ink-muted"), safe("; ".join(said)))
        for name, said in (("taken", taken), ("left", left))
        if said
    ]
