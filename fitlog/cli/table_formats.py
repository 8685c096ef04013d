"""A table of a command as CSV or Markdown, for a spreadsheet or a page."""

from argparse import ArgumentParser
from collections.abc import Sequence

FORMS = ("csv", "md")


def form_option(parser: ArgumentParser) -> None:
    """--csv, --md."""
    chosen = parser.add_mutually_exclusive_group()
    for form, name in zip(FORMS, ("CSV", "Markdown"), strict=True):
        chosen.add_argument(f"--{form}", dest="form", action="store_const", const=form, help=f"print it as {name}")


def table_text(heads: Sequence[str], rows: Sequence[Sequence[str]], form: str) -> str:
    """The table in one of ``FORMS``; no text in it can end a cell.

    >>> print(table_text(("slot", "club"), [("3w", "a|b, c")], "csv"))
    slot,club
    3w,"a|b, c"
    <BLANKLINE>
    >>> print(table_text(("slot", "club"), [("3w", "a|b")], "md"))
    | slot | club |
    |---|---|
    | 3w | a\\|b |
    """
    if form == "md":
        from fitlog.report.formats.markdown import safe

        lines = ["| " + " | ".join(safe(cell) for cell in row) + " |" for row in (heads, *rows)]
        return "\n".join([lines[0], "|" + "---|" * len(heads), *lines[1:]])
    import csv
    import io

    out = io.StringIO()
    csv.writer(out, lineterminator="\n").writerows([heads, *rows])
    return out.getvalue()
