"""The workspace's settings: units shown, reference air, name, shop."""

from collections.abc import Sequence
from typing import Any, ClassVar

from fitlog.actions.values import typed_value
from fitlog.records.models.settings import Settings
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult
from fitlog.tui.dialogs.setup.value_picker import ValuePicker
from fitlog.tui.text.sanitize import safe
from fitlog.tui.widgets.rows import Column
from fitlog.views.workspace.settings import setting_keys, setting_label, setting_options, workspace_settings


class WorkspaceSettings(ValuePicker):
    """The values of the workspace's file, saved together with a reason.

    The files keep their own units.
    """

    title_text = "This workspace: units, reference air, who logs, the shop"
    columns: ClassVar[Sequence[Column]] = (
        Column("value", 30, grow=1),
        Column("now", 18, grow=2),
        Column("new", 12, grow=2),
    )
    ready = "save, with a reason"
    needs_reason = True

    def __init__(self) -> None:
        super().__init__("", "workspace")

    def read(self, desk: Desk) -> Any:
        return {each.key: each.value for each in workspace_settings(desk) if each.value is not None}

    def keys_to_ask(self) -> Sequence[str]:
        return [each for each in setting_keys() if each.startswith("units.")] + setting_keys()

    def label(self, key: str) -> str:
        return safe(setting_label(key))

    def explain(self, key: str, /) -> str:
        options = setting_options(key)
        return f"; {options}" if options else ""

    def typed_value(self, key: str, text: str) -> Any:
        return typed_value(key, text, Settings)

    def finish(self, reason: str, /) -> None:
        values = dict(self.values)

        def work(desk: Desk) -> SaveResult:
            from fitlog.actions.workspace.settings import change_settings

            return change_settings(desk, values, reason)

        self.do(work, lambda done: self.close_with(done, "saved"))
