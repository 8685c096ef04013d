"""A sheet in one of its formats; each renderer loads when it is needed.

It goes to a page or into a file.
"""

import os

from fitlog.records.errors import Refusal, UsageError
from fitlog.report.document import Document
from fitlog.saving.desk import Desk
from fitlog.system.files import replacing
from fitlog.views.sheets.letterhead import letterhead

FORMATS = ("text", "html", "md", "pdf")
_ENDINGS = {".html": "html", ".htm": "html", ".md": "md", ".txt": "text", ".pdf": "pdf"}


def make_sheet(desk: Desk, document: Document) -> Document:
    """The document with the workspace's letterhead: what every printed sheet is."""
    return document._replace(head=letterhead(desk))


def render(document: Document, form: str, width: int = 100) -> str:
    """The sheet as text, html or md; ``width`` counts for text.

    Raises UsageError for another format.
    """
    if form == "html":
        from fitlog.report.formats.html import html

        return html(document)
    if form == "md":
        from fitlog.report.formats.markdown import markdown

        return markdown(document)
    if form == "text":
        from fitlog.report.formats.text import text

        return text(document, width)
    raise UsageError(f"'{form}' is not a format", do="use one of " + ", ".join(FORMATS))


def render_bytes(document: Document, form: str, width: int = 100) -> bytes:
    """The sheet as a file holds it, a PDF too.

    Raises UsageError for another format, Refusal where PDF cannot be made here.
    """
    if form == "pdf":
        from fitlog.report.formats.pdf import pdf

        return pdf(document)
    return render(document, form, width).encode()


def form_of(path: str, default: str) -> str:
    """The format of a file's ending; without an ending the usual one.

    Raises UsageError for an ending that is no format.

    >>> form_of("day.MD", "html"), form_of("day", "html")
    ('md', 'html')
    """
    ending = os.path.splitext(path)[1].lower()
    if ending and ending not in _ENDINGS:
        raise UsageError(
            f"a sheet cannot be written as {ending}", where=path, do="end it in .html, .pdf, .md or .txt"
        )
    return _ENDINGS.get(ending, default)


def write(path: str, data: bytes) -> None:
    """Write a rendered sheet into a file of a person's own, over what stood there.

    Raises Refusal where it cannot be written.
    """
    try:
        with replacing(path) as fresh, open(fresh, "wb") as file:
            file.write(data)
    except OSError as error:
        raise Refusal(f"the sheet cannot be written: {error.strerror}", where=path, do="name another file") from error
