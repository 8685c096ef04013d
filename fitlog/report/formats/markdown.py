"""A sheet as Markdown: pipe tables, the picture in a code block.

Text from files is escaped and stays text.
"""

import re

from fitlog.evidence.pattern.picture import rows
from fitlog.report.document import (
    Banner,
    Blanks,
    Block,
    Bullets,
    Cell,
    Club,
    Document,
    Facts,
    Figure,
    Heading,
    Ladder,
    Pair,
    Paragraph,
    Table,
    cell_text,
    flat,
    foot_lines,
    one_line,
    shop_line,
    table_of,
    without_empty_columns,
)
from fitlog.report.formats.text import ladder_lines, legend

_SPECIAL = re.compile(r"([\\`*_{}\[\]<>#|~&!])")
_LEADING_MARK = re.compile(r"^(\d+)([.)])(?=\s|$)|^([-+=])(?=[-+=\s]|$)")


def markdown(document: Document) -> str:
    """The document; a rule stands between its pages."""
    pages = "\n\n---\n\n".join(
        "\n\n".join(
            [f"# {safe(page.title)}", safe(page.subtitle)]
            + [part for each in flat(page.blocks) if (part := _block(each))]
        )
        for page in document.pages
    )
    shop = shop_line(document.head)
    above = f"{safe(shop)}\n\n" if shop else ""
    return f"{above}{pages}\n\n---\n\n{safe(' · '.join(foot_lines(document)))}\n"


def safe(text: str) -> str:
    """Text that Markdown shows as it stands.

    No emphasis, link, table, heading, list or HTML comes of it.

    >>> safe("a|b *c* <script> [x](y)")
    'a\\\\|b \\\\*c\\\\* \\\\<script\\\\> \\\\[x\\\\](y)'
    >>> safe("1. one"), safe("- two")
    ('1\\\\. one', '\\\\- two')
    """
    escaped = _SPECIAL.sub(r"\\\1", one_line(text)).replace("://", "\\://").replace("www.", "www\\.")
    return _LEADING_MARK.sub(lambda m: f"{m[1]}\\{m[2]}" if m[1] else f"\\{m[3]}", escaped)


def _block(block: Block) -> str:
    match block:
        case Heading(text):
            return f"## {safe(text)}"
        case Paragraph(text, _):
            return safe(text)
        case Bullets(items, _):
            return "\n".join(f"- {safe(item)}" for item in items)
        case Facts(pairs):
            return "\n".join(f"- {safe(name)}: {safe(value or '–')}" for name, value in pairs)
        case Club(parts, caption):
            entries = [f"- {safe(place)}: {safe('; '.join(changes))}" for place, changes in parts if changes]
            return "\n".join([safe(caption), "", *entries] if caption else entries)
        case Banner(word, text, small, _, about):
            first = f"**{safe(word)}**: {safe(about)}" if about else f"**{safe(word)}**"
            head = [first, safe(text)] if about else [first + (f": {safe(text)}" if text else "")]
            lines = [*head, safe(small) if small else ""]
            return "\n".join(f"> {line}" for line in lines if line)
        case Table():
            return _table(without_empty_columns(block))
        case Figure(scene, _, caption, unit):
            drawn = "\n".join([*rows(scene, 78, 26), "", *legend(block)])
            return f"{_fence(drawn)}\n\n{safe(caption)} (offline across and carry upward, {safe(unit)})"
        case Ladder(_, _, caption):
            return f"{_fence(chr(10).join(ladder_lines(block, 78)))}\n\n{safe(caption)}"
        case Blanks():
            return _table(table_of(block))
        case Pair(left, right, _):
            return "\n\n".join(_block(each) for each in (*left, *right))


def _fence(text: str) -> str:
    longest = max((len(run) for run in re.findall(r"`+", text)), default=0)
    fence = "`" * max(3, longest + 1)
    return f"{fence}text\n{text}\n{fence}"


def _table(table: Table) -> str:
    if not table.heads:
        return ""
    heads = "| " + " | ".join(safe(head) for head in table.heads) + " |"
    rule = "|" + "|".join("---:" if place in table.numbers else "---" for place in range(len(table.heads))) + "|"
    lines = ["| " + " | ".join(_cell(cell) for cell in row) + " |" for row in table.rows]
    caption = [f"{safe(table.caption)}\n"] if table.caption else []
    return "\n".join([*caption, heads, rule, *lines])


def _cell(cell: Cell) -> str:
    text = safe(cell_text(cell))
    return f"~~{text}~~" if cell.struck and cell.text not in ("", "–") else text
