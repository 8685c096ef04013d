"""The schemas in schemas/ against the records they are made from: ``python -m tests.schemas check|write``."""

import json
import sys
from pathlib import Path

from fitlog.records.schema.json_schema import NAMES, schema

FOLDER = Path(__file__).parents[1] / "schemas"


def path_of(name: str) -> Path:
    """Where a schema stands."""
    return FOLDER / f"{name}.schema.json"


def schema_text(name: str) -> str:
    """The schema as it should stand in its file."""
    return json.dumps(schema(name), indent=2, ensure_ascii=False) + "\n"


def drifted() -> list[str]:
    """The schemas that are not what the records say."""
    stand = {path.name for path in FOLDER.iterdir()} - {"README.md"}  # that is of tests.topics
    wrong = [name for name in NAMES if not path_of(name).exists() or path_of(name).read_text() != schema_text(name)]
    return wrong + sorted(stand - {path_of(name).name for name in NAMES})


def main(what: str) -> int:
    """Check, or write them anew."""
    if what == "write":
        for name in NAMES:
            path_of(name).write_text(schema_text(name))
    wrong = drifted()
    if wrong:
        print(f"not as the records say: {', '.join(wrong)}; write them with: python -m tests.schemas write")
    return bool(wrong)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:2] or ["check"]))
