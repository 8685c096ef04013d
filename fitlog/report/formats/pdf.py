"""A sheet as PDF of the page that browsers print, by WeasyPrint.

It needs WeasyPrint to be installed.
"""

import re
from functools import cache
from typing import Any

from fitlog.records.errors import Refusal
from fitlog.report.document import Document, Page
from fitlog.report.formats.html import html, style
from fitlog.report.formats.paper import zoom

_ROOM_MM = 272.0  # A4 less the margins below, and a little for what WeasyPrint breaks earlier than browsers
# WeasyPrint's boxes do not stretch as a browser's: the foot goes to the page's own margin instead
_PAPER = """
@page { size: A4; margin: 8mm 11mm 14mm; @bottom-left { content: element(foot); width: 100%; vertical-align: top; } }
@page pocket { size: 105mm 148mm; margin: 5mm; @bottom-left { content: none; } }
.filled { display: block; min-height: 0; }
.filled > h2 { display: block; max-height: none; }
.filled > footer { position: running(foot); margin: 0; }
"""


def pdf(document: Document) -> bytes:
    """The document as PDF; nothing but what the page carries inside is ever read.

    Raises Refusal where WeasyPrint, or a library of the system that it needs, is not there.
    """
    try:
        from weasyprint import HTML
        from weasyprint.urls import URLFetcher
    except (ImportError, OSError) as error:  # OSError: Pango is missing
        raise Refusal(
            "PDF needs WeasyPrint, which is not installed here",
            do="install it with: pip install 'fitlog[pdf]', or write .html and print it from a browser",
        ) from error

    fetcher = URLFetcher(allowed_protocols=("data",))  # what the page carries inside, and nothing else
    first = HTML(string=html(document._replace(pages=())), url_fetcher=fetcher).render()
    whole: bytes = first.copy(lay_out(document, HTML, fetcher)).write_pdf()
    return whole


def lay_out(document: Document, html_class: Any, fetcher: Any) -> list[Any]:
    """The laid out pages, each with its width and height in pixels of 1/96 in."""
    return [
        made
        for page in document.pages
        for made in html_class(string=_page_html(document, page), url_fetcher=fetcher, media_type="print")
        .render()
        .pages
    ]


def _page_html(document: Document, page: Page) -> str:
    """One page by itself, its print sizes scaled: WeasyPrint knows no zoom."""
    text, css = html(document._replace(pages=(page,))), style()
    start = css.index("@media print")
    size = zoom(page, _ROOM_MM)
    scaled = re.sub(r"(\d*\.?\d+)(pt|mm)\b", lambda found: f"{float(found[1]) * size:.3f}{found[2]}", css[start:])
    text = text.replace(css[start:], re.sub(r"@page[^}]*}", "", scaled) + _PAPER)
    return re.sub(r"(<svg [^>]*>)", rf"\1<style>{_picture_style()}</style>", text)


@cache
def _picture_style() -> str:
    """The style of the pictures, to stand inside each.

    WeasyPrint takes none from the page, and no variables.
    """
    css = style()
    colours = dict(re.findall(r"--([\w-]+): (#\w+);", css[css.index("@media print") :]))
    rules = re.findall(r"svg ([^{}\s][^{}]*)\{([^{}]*)\}", css)  # a rule without a selector would end them all
    text = " ".join(f"{selector.strip().replace('svg ', '')} {{{body}}}" for selector, body in rules)
    return re.sub(r"var\(--([\w-]+)\)", lambda found: colours[found[1]], text)
