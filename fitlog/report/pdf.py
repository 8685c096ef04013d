"""A sheet as PDF, by the page that the browser prints; WeasyPrint makes it, where it is installed."""

from typing import Any

from fitlog.records.errors import Refusal
from fitlog.report.document import Document
from fitlog.report.html import html


def pdf(document: Document) -> bytes:
    """The document as PDF; nothing but what the page carries inside is ever read.

    Raises Refusal where WeasyPrint, or a library of the system that it needs, is not there.
    """
    try:
        from weasyprint import HTML
        from weasyprint.urls import URLFetchingError
    except (ImportError, OSError) as error:  # OSError: Pango is missing
        raise Refusal(
            "PDF needs WeasyPrint, which is not installed here",
            do="install it with: pip install 'fitlog[pdf]', or write .html and print it from a browser",
        ) from error

    def refuse(url: str, *_: Any, **__: Any) -> Any:
        if url.startswith("data:"):
            from weasyprint.urls import default_url_fetcher

            return default_url_fetcher(url)
        raise URLFetchingError(f"a sheet fetches nothing: {url[:80]}")

    made: bytes = HTML(string=html(document), url_fetcher=refuse, media_type="print").write_pdf()
    return made
