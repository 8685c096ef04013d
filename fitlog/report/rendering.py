"""A sheet in one of its formats; each renderer loads when it is asked for."""

from fitlog.records.errors import UsageError
from fitlog.report.document import Document

FORMATS = ("text", "html", "md")


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
