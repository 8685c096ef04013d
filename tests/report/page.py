"""A page read back: well-formed, and as a browser would see it; and the rows of a sheet's table."""

from html.parser import HTMLParser
from xml.etree import ElementTree

from fitlog.report.document import Document, Table, flat

VOID = {"meta", "br", "img", "link", "input", "hr"}
# what could fetch something or run something
ACTIVE = {
    "script",
    "img",
    "iframe",
    "object",
    "embed",
    "link",
    "a",
    "form",
    "base",
    "audio",
    "video",
    "source",
    "use",
}


class Page(HTMLParser):
    """Tags, attributes and text of a page; ``wrong`` says where it is not nested properly."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.pieces: list[bool] = []  # of each open tag whether it is but a piece of a sentence
        self.wrong: list[str] = []
        self.said: list[str] = []
        self.feed(text)
        self.close()
        self.wrong += [f"<{tag}> is never closed" for tag in self.open]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)
            self.pieces.append(dict(attrs) == {"class": "whole"})
            self.said += [] if self.pieces[-1] else [" "]

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.wrong.append(f"</{tag}> closes something else")
        elif not self.pieces.pop():
            self.said.append(" ")

    def handle_data(self, data: str) -> None:
        if "style" not in self.open:
            self.said.append(data)

    @property
    def text(self) -> str:
        """All text, on one line."""
        return " ".join("".join(self.said).split())

    @property
    def active(self) -> list[str]:
        """Tags and attributes that could run or fetch."""
        return [tag for tag, _ in self.tags if tag in ACTIVE] + [
            f"{tag} {name}" for tag, attrs in self.tags for name in attrs if name.startswith(("on", "href", "src"))
        ]


def checked(text: str) -> Page:
    """The page, parsed as HTML and as XML; fails where either finds it malformed."""
    start = "<!DOCTYPE html>\n"
    assert text.startswith(start)
    ElementTree.fromstring(text.removeprefix(start))
    page = Page(text)
    assert page.wrong == []
    return page


def rows_of(made: Document, page: int = 0, table: int = 0) -> list[list[str]]:
    tables = [block for block in flat(made.pages[page].blocks) if isinstance(block, Table)]
    return [[cell.text for cell in row] for row in tables[table].rows]
