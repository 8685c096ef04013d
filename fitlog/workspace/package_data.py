"""Files that come with the program.

The JSON Schemas and the demo, in the wheel or beside the code.
"""

import os

from fitlog.records.errors import Refusal


def package_folder(name: str) -> str:
    """The folder of such files: ``schemas`` or ``demo_workspace``.

    Raises Refusal where the installation lacks it.
    """
    package = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
    for folder in (os.path.join(package, "package_data", name), os.path.join(os.path.dirname(package), name)):
        if os.path.isdir(folder):
            return folder
    raise Refusal(f"this installation lacks its '{name}' folder", do="install fitlog again")


def schema_files() -> dict[str, bytes]:
    """Each schema file's name and bytes."""
    folder = package_folder("schemas")
    out = {}
    for name in sorted(os.listdir(folder)):
        if name.endswith(".schema.json"):
            with open(os.path.join(folder, name), "rb") as file:
                out[name] = file.read()
    return out
