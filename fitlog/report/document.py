"""A sheet as content alone: headings, lists, tables, figures.

``rendering`` makes it text, Markdown or HTML.

All text in it is plain text: a renderer writes it so that no markup in a name or a note does anything.
"""

from collections.abc import Iterator, Sequence
from typing import Any, Literal, NamedTuple, TypeAlias

from fitlog.evidence.pattern.picture import Scene
from fitlog.views.sheets.letterhead import Letterhead

Tone: TypeAlias = Literal["", "good", "bad", "open", "quiet", "warn"]


class Cell(NamedTuple):
    """One field of a table; ``computed`` sets it apart from the measured.

    ``tone`` is never the only sign.
    """

    text: str
    tone: Tone = ""
    computed: bool = False
    struck: bool = False


class Heading(NamedTuple):
    """A heading inside the sheet."""

    text: str


class Paragraph(NamedTuple):
    """Sentences."""

    text: str
    tone: Tone = ""


class Bullets(NamedTuple):
    """A list of sentences."""

    items: tuple[str, ...]
    tone: Tone = ""


class Facts(NamedTuple):
    """Names with their values, a line each or side by side."""

    pairs: tuple[tuple[str, str], ...]


class Table(NamedTuple):
    """Rows under heads; ``numbers`` are the columns that align right.

    ``stacks``: a row becomes a card on a phone; ``screen`` are the columns that paper has no room for.
    """

    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    numbers: frozenset[int] = frozenset()
    caption: str = ""
    stacks: bool = False
    screen: frozenset[int] = frozenset()


class Banner(NamedTuple):
    """The one thing that a sheet says: a word, its subject, and a sentence."""

    word: str
    text: str
    small: str = ""
    tone: Tone = ""
    about: str = ""


class Figure(NamedTuple):
    """A picture of where shots landed; ``legend`` names the series in order."""

    scene: Scene
    legend: tuple[str, ...]
    caption: str
    unit: str = "yd"


class Club(NamedTuple):
    """A club drawn from grip to head; ``parts`` are its places with changes.

    There are none where nothing was changed.
    """

    parts: tuple[tuple[str, tuple[str, ...]], ...]
    caption: str


class Rung(NamedTuple):
    """One step of a ladder: its name, its text, its reach and its reading."""

    name: str
    value: float
    reach: float
    text: str


class Ladder(NamedTuple):
    """Values of a bag, one below the other on one scale."""

    rungs: tuple[Rung, ...]
    unit: str
    caption: str


class Blank(NamedTuple):
    """An empty place to write in: its name, the aim, the tolerance, the last reading."""

    name: str
    target: str
    tolerance: str = ""
    read: str = ""
    computed: bool = False


class Blanks(NamedTuple):
    """Places for what is read on the bench."""

    rows: tuple[Blank, ...]


class Pair(NamedTuple):
    """Two groups of blocks side by side where there is room.

    ``printed``: on paper alone, and small.
    """

    left: tuple["Block", ...]
    right: tuple["Block", ...]
    printed: bool = False


Block: TypeAlias = Heading | Paragraph | Bullets | Facts | Table | Banner | Figure | Club | Ladder | Blanks | Pair


PageKind: TypeAlias = Literal["", "pocket", "signed"]


class Page(NamedTuple):
    """What starts a sheet of its own; a ``long`` one may run over several.

    A day's list is such a page.

    ``kind``: ``pocket`` is as large as a scorecard; ``signed`` has a line to sign on.
    """

    title: str
    subtitle: str
    blocks: tuple[Block, ...]
    long: bool = False
    kind: PageKind = ""


class Document(NamedTuple):
    """One or more sheets and their foot; ``head`` is the shop's, if any."""

    title: str
    pages: tuple[Page, ...]
    foot: str = ""
    head: Letterhead = Letterhead()


BLANK = "_" * 10


def table_of(blanks: Blanks) -> Table:
    """The places for readings as a table; the last column is the one to write in."""
    heads = ("", "Sheet", "Tolerance", "Last measured", "Measured now")
    rows = tuple(
        (Cell(row.name), Cell(row.target, computed=row.computed), Cell(row.tolerance), Cell(row.read), Cell(BLANK))
        for row in blanks.rows
    )
    return without_empty_columns(Table(heads, rows, stacks=True))


def as_data(document: Document) -> dict[str, Any]:
    """The sheet as plain values for JSON: each block with its kind.

    A picture becomes its legend and caption.
    """
    return {
        "title": document.title,
        "pages": [
            {
                "title": page.title,
                "subtitle": page.subtitle,
                "blocks": [_block_data(each) for each in flat(page.blocks)],
            }
            for page in document.pages
        ],
        "foot": document.foot,
        "shop": document.head.shop,
        "printed": document.head.print_date,
    }


def _block_data(block: Block) -> dict[str, Any]:
    values = {key: _data(value) for key, value in block._asdict().items() if key != "scene"}
    return {"kind": type(block).__name__.lower(), **values}


def _data(value: Any) -> Any:
    if hasattr(value, "_asdict"):
        return {key: _data(each) for key, each in value._asdict().items()}
    if isinstance(value, tuple | list):
        return [_data(each) for each in value]
    return sorted(value) if isinstance(value, frozenset) else value


def foot_lines(document: Document, page: Page | None = None) -> list[str]:
    """The foot of a page: the sheet's own line, or the shop, and the date.

    A small one has the shop only; the date is that of printing.
    """
    printed = f"printed {document.head.print_date}" if document.head.print_date else ""
    first = document.head.shop if page is not None and page.kind == "pocket" else document.foot
    return [each for each in (first, printed) if each]


def shop_line(head: Letterhead) -> str:
    """The shop in one line of text; empty where there is none."""
    return " · ".join(each for each in (head.shop, head.contact) if each)


def plain_row(*texts: str) -> tuple[Cell, ...]:
    """A row of cells that are text alone."""
    return tuple(Cell(each) for each in texts)


def cell_text(cell: Cell) -> str:
    """What a field says; a computed value carries its sign."""
    return f"≈ {cell.text}" if cell.computed and cell.text not in ("", "–") else cell.text


def without_empty_columns(table: Table) -> Table:
    """The table less the columns that say nothing in any row."""
    kept = [n for n in range(len(table.heads)) if any(row[n].text not in ("", "–") for row in table.rows)]
    return table if len(kept) == len(table.heads) else columns_of(table, kept)


def columns_of(table: Table, places: Sequence[int]) -> Table:
    """The table with these of its columns."""
    numbers, screen = (
        frozenset(new for new, old in enumerate(places) if old in marked) for marked in (table.numbers, table.screen)
    )
    rows = tuple(tuple(row[n] for n in places) for row in table.rows)
    heads = tuple(table.heads[n] for n in places)
    return table._replace(heads=heads, rows=rows, numbers=numbers, screen=screen)


def flat(blocks: Sequence[Block]) -> Iterator[Block]:
    """All blocks in reading order, the sides of a pair one after the other."""
    for block in blocks:
        if isinstance(block, Pair):
            yield from flat(block.left)
            yield from flat(block.right)
        else:
            yield block


def one_line(text: str) -> str:
    """Text from a file on one line, made harmless for a terminal.

    What could steer it or turn the reading direction is written out.

    >>> one_line("Oak\\n\\x1b[31m 9")
    'Oak \\\\x1b[31m 9'
    """
    calm = " ".join(text.split())
    if calm.isprintable():  # neither control characters nor marks that turn the reading direction
        return calm
    return "".join(char if char.isprintable() else char.encode("unicode_escape").decode() for char in calm)
