"""What ``fitlog help TOPIC`` says, as Markdown in the tree: ``python -m tests.topics check|write``."""

import sys
from pathlib import Path

from fitlog.cli.help.topics import TOPICS
from fitlog.report.formats.rendering import render

TOP = Path(__file__).parents[1]
PAGES = {
    TOP / "schemas" / "README.md": ("files", "columns", "words"),
    TOP / "tests" / "published" / "README.md": ("formulas",),
}
_NOTE = "<!-- written by: python -m tests.topics write -->\n\n"


def page_text(topics: tuple[str, ...]) -> str:
    """The topics one after the other, as they should stand in the file."""
    return _NOTE + "\n".join(render(TOPICS[each][1](), "md") for each in topics)


def drifted() -> list[Path]:
    """The files that do not say what the code says."""
    return [path for path, topics in PAGES.items() if not path.exists() or path.read_text() != page_text(topics)]


def main(what: str) -> int:
    """Check, or write them anew."""
    if what == "write":
        for path, topics in PAGES.items():
            path.write_text(page_text(topics))
    wrong = ", ".join(str(path.relative_to(TOP)) for path in drifted())
    if wrong:
        print(f"not as the code says: {wrong}; write them with: python -m tests.topics write")
    return bool(wrong)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:2] or ["check"]))
