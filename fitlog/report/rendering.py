"""A sheet in one of its formats, on a page or in a file; each renderer loads when it is asked for."""

import os

from fitlog.records.errors import Refusal, UsageError
from fitlog.report.document import Document

FORMATS = ("text", "html", "md")
_ENDINGS = {".html": "html", ".htm": "html", ".md": "md", ".txt": "text"}


def render(document: Document, form: str, width: int = 100) -> str:
    """The sheet in one of the formats text, html, md; ``width`` counts for text.

    Raises UsageError for another format.
    """
    if form == "html":
        from fitlog.report.html import html

        return html(document)
    if form == "md":
        from fitlog.report.markdown import markdown

        return markdown(document)
    if form == "text":
        from fitlog.report.text import text

        return text(document, width)
    raise UsageError(f"'{form}' is not a format", do="use one of " + ", ".join(FORMATS))


def form_of(path: str, usual: str) -> str:
    """The format that a file's name asks for by its ending, else the usual one.

    >>> form_of("day.MD", "html"), form_of("day", "html")
    ('md', 'html')
    """
    return _ENDINGS.get(os.path.splitext(path)[1].lower(), usual)


def write(path: str, text: str) -> None:
    """Write a rendered sheet into a file of a person's own, over what stood there.

    Raises Refusal where it cannot be written.
    """
    try:
        with open(path, "w", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except OSError as error:
        raise Refusal(f"the sheet cannot be written: {error.strerror}", where=path, do="name another file") from error
