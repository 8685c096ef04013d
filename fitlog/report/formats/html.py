"""A sheet as one HTML page that needs no other file and fetches nothing."""

import re
from collections.abc import Sequence
from functools import cache
from html import escape

from fitlog.report.document import (
    BLANK,
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
    Page,
    Pair,
    Paragraph,
    Table,
    cell_text,
    foot_lines,
    one_line,
    table_of,
    without_empty_columns,
)
from fitlog.report.formats import paper, svg
from fitlog.report.formats.pieces import PIECES
from fitlog.views.sheets.letterhead import Letterhead

# Nothing may be fetched, whatever a name or a note says.
_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"


def html(document: Document) -> str:
    """The page, well-formed as XML too."""
    pages = "\n".join(_page(page, document) for page in document.pages)
    return (
        "<!DOCTYPE html>\n"
        '<html lang="en">\n<head>\n<meta charset="utf-8"/>\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1"/>\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}"/>\n'
        '<meta name="color-scheme" content="light dark"/>\n'
        f"<title>{_safe(document.title)}</title>\n<style>\n{style()}</style>\n</head>\n"
        f"<body>\n<main>\n{pages}\n</main>\n</body>\n</html>\n"
    )


@cache
def style() -> str:
    """The one style sheet of every sheet."""
    from importlib.resources import files

    return files("fitlog.report").joinpath("sheet.css").read_text(encoding="utf-8")


def _safe(text: str) -> str:
    return escape(one_line(text), quote=True)


def _page(page: Page, document: Document) -> str:
    title = f"<div>\n<h1>{_safe(page.title)}</h1>\n<p>{_prose(page.subtitle)}</p>\n</div>"
    head = f"<header>\n{title}\n{_shop(document.head)}</header>"
    body = "\n".join(block(each) for each in page.blocks)
    zoom = paper.zoom(page)
    small = f' style="--zoom: {zoom:g}"' if zoom != 1 else ""
    foot = _prose(" · ".join(foot_lines(document, page)))
    sign = _signature(document.head) if page.kind == "signed" else ""
    kind = _tone(page.kind, "filled" if paper.fills(page) else "")
    return f"<article{kind}{small}>\n{head}\n{body}\n{sign}<footer>{foot}</footer>\n</article>"


def _shop(head: Letterhead) -> str:
    """The shop beside the title: its logo, name and contact."""
    logo = f'<img src="{escape(head.logo, quote=True)}" alt=""/>' if head.logo else ""
    lines = (head.shop, *head.contact.split(" · "))  # each way to reach the shop on a line of its own
    words = "".join(f"<span>{_safe(each)}</span>" for each in lines if each)
    return f'<div class="shop">{logo}<p>{words}</p></div>\n' if logo or words else ""


def _signature(head: Letterhead) -> str:
    return f'<p class="signature"><span>{_safe(head.signature)}</span></p>\n' if head.signature else ""


def block(each: Block) -> str:
    """One block as HTML."""
    match each:
        case Heading(text):
            return f"<h2>{_safe(text)}</h2>"
        case Paragraph(text, tone):
            return f"<p{_tone(tone)}>{_prose(text)}</p>"
        case Bullets(items, tone):
            return f"<ul{_tone(tone)}>{''.join(f'<li>{_prose(item)}</li>' for item in items)}</ul>" if items else ""
        case Facts(pairs):
            rows = "".join(f"<div><dt>{_safe(name)}</dt><dd>{_prose(value)}</dd></div>" for name, value in pairs)
            return f"<dl>{rows}</dl>"
        case Table():
            return _table(without_empty_columns(each))
        case Banner(word, text, small, tone, about):
            above = f"<b>{_prose(about)}</b>" if about else ""
            below = f"<small>{_prose(small)}</small>" if small else ""
            content = f"<strong>{_safe(word)}</strong>{above}<p>{_prose(text)}</p>{below}"
            return f'<section class="banner {tone}">{content}</section>'
        case Club(parts, caption):
            return _club(parts, caption)
        case Figure():
            return _figure(each)
        case Ladder(_, _, caption):
            return f"<figure>{svg.ladder(each)}<figcaption>{_prose(caption)}</figcaption></figure>"
        case Blanks():
            return _blanks(each)
        case Pair(left, right, printed):
            sides = ("\n".join(block(one) for one in side) for side in (left, right) if side)
            kind = ("printed" if printed else "pair") + ("" if left and right else " single")
            return f'<div class="{kind}">{"".join(f"<div>{side}</div>" for side in sides)}</div>'


def _tone(tone: str, more: str = "") -> str:
    names = " ".join(filter(None, (tone, more)))
    return f' class="{names}"' if names else ""


def _table(table: Table) -> str:
    heads = "".join(
        f'<th scope="col"{_tone("", _cell_classes(place, table))}>{_safe(head)}</th>'
        for place, head in enumerate(table.heads)
    )
    rows = "".join(f"<tr>{''.join(_cell(cell, n, table) for n, cell in enumerate(row))}</tr>" for row in table.rows)
    caption = f"<caption>{_safe(table.caption)}</caption>" if table.caption else ""
    kind = ' class="stacks"' if table.stacks else ""
    left_out = ", ".join(_safe(table.heads[place]) for place in sorted(table.screen))
    note = f'<p class="quiet paper">Left out on paper: {left_out}</p>' if left_out else ""
    return note + _scroll(f"<table{kind}>{caption}<thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>")


_SHORT = 16  # letters of a toned cell that stands on one line; a sentence of several candidates must break
_PIECE_SPAN = r'<span class="whole">\g<0></span>'


def _prose(text: str) -> str:
    """Text of a page whose pieces are not broken over two lines."""
    return PIECES.sub(_PIECE_SPAN, _safe(text))


def _cell_classes(place: int, table: Table) -> str:
    return " ".join(name for name, so in (("n", place in table.numbers), ("screen", place in table.screen)) if so)


def _scroll(table: str) -> str:
    return f'<div class="scroll">{table}</div>'


def _cell(cell: Cell, place: int, table: Table) -> str:
    more = " ".join(
        name
        for name, so in (
            (_cell_classes(place, table), True),
            ("computed", cell.computed),
            ("struck", cell.struck),
            ("whole", bool(cell.tone) and len(cell.text) <= _SHORT),
            ("none", cell.text in ("", "–")),
        )
        if so and name
    )
    label = f' data-head="{_safe(table.heads[place])}"' if table.stacks else ""
    text = _prose(cell_text(cell))
    # one piece beside its head on a phone, where a cell's pieces stand in columns
    return f"<td{_tone(cell.tone, more)}{label}>{f'<span>{text}</span>' if label else text}</td>"


def _figure(figure: Figure) -> str:
    legend = "".join(
        f"<li>{svg.swatch(number)}<span>{_prose(name)}</span></li>" for number, name in enumerate(figure.legend)
    )
    drawn = svg.picture(figure.scene, figure.caption, figure.unit)
    kind = _tone("many" if len(figure.legend) > paper.FEW_CLUBS else "")
    caption = f"<figcaption>{_prose(figure.caption)}</figcaption>"
    return f'<figure{kind}>{drawn}<ul class="legend">{legend}</ul>{caption}</figure>'


def _club(parts: Sequence[tuple[str, Sequence[str]]], caption: str) -> str:
    """A club drawn, and below each of its places what was changed there."""
    changed = [place for place, changes in parts if changes]
    items = "".join(
        f"<div><b>{_safe(place)}</b>{''.join(f'<span>{_prose(each)}</span>' for each in changes)}</div>"
        for place, changes in parts
        if changes
    )
    heading = f"<figcaption>{_safe(caption)}</figcaption>" if caption else ""
    kind = "club several" if caption else "club"  # a name tells it from others: their drawings stand beside the words
    return f'<figure class="{kind}">{heading}{svg.club(changed)}<div class="parts">{items}</div></figure>'


def _blanks(blanks: Blanks) -> str:
    drawn = re.sub(rf"<td([^>]*)><span>{BLANK}</span></td>", r'<td class="blank"\1></td>', _table(table_of(blanks)))
    return drawn.replace('<table class="stacks">', '<table class="stacks blanks">')
