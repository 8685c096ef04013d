"""Make a workspace."""

import os
import shutil
from collections.abc import Mapping
from contextlib import suppress
from typing import Any

from fitlog.history.message import Message
from fitlog.records.errors import Refusal
from fitlog.saving.desk import Desk
from fitlog.saving.save import SaveResult, saving
from fitlog.workspace.layout import OWN_FOLDER, SCHEMA_FOLDER, WORKSPACE_FILE
from fitlog.workspace.package_data import schema_files
from fitlog.workspace.text.toml_text import table_text

_HEADER = """\
# A fitlog workspace. Every file here is plain TOML: read it, edit it, diff it.
#:schema schemas/workspace.schema.json

"""


def init(desk: Desk, name: str = "", units: Mapping[str, str] | None = None) -> SaveResult:
    """Make the desk's folder a workspace with its repository and schemas.

    ``units`` are those that screens show.

    Raises Refusal where there is one already, or where the folder holds other things.
    """
    root = desk.root
    if os.path.exists(os.path.join(root, WORKSPACE_FILE)):
        raise Refusal("this is a fitlog workspace already", where=root, do="open it with: fitlog -w " + root)
    made = not os.path.isdir(root)
    new_folder(root)
    try:
        return _fill_folder(desk, name, units or {})
    except BaseException:  # nothing of a try that failed is in the way of the next one
        if not os.path.exists(os.path.join(root, WORKSPACE_FILE)):
            desk.close()
            for folder in (".git", OWN_FOLDER):
                shutil.rmtree(os.path.join(root, folder), ignore_errors=True)
            with suppress(OSError):
                os.rmdir(root) if made else None
        raise


def _fill_folder(desk: Desk, name: str, units: Mapping[str, str]) -> SaveResult:
    """Put into an empty folder what every workspace has."""
    desk.history.create()
    with saving(desk) as save:
        table: dict[str, Any] = {"name": name or os.path.basename(os.path.abspath(desk.root)), "schema": 1}
        table |= {"units": dict(units)} if units else {}
        save.put(WORKSPACE_FILE, _HEADER + table_text(table))
        save.put(".gitignore", ".fitlog/\n")
        save.put(".gitattributes", "* -text\n")  # every clone keeps every byte, whatever its git would convert
        for file, data in schema_files().items():
            save.put(f"{SCHEMA_FOLDER}/{file}", data.decode())
        return save.commit(Message(f"New workspace: {table['name']}", "init"))


def new_folder(root: str) -> None:
    """Make a folder for a workspace.

    Raises Refusal where there is one that holds other things, or where it cannot be made.
    """
    if os.path.isdir(root) and os.listdir(root):
        raise Refusal("this folder is not empty", where=root, do="name a new or empty folder")
    try:
        os.makedirs(root, exist_ok=True)
    except OSError as error:
        raise Refusal(
            f"this folder cannot be made: {error.strerror}", where=root, do="choose another place"
        ) from error
