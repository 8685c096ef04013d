"""What ``fitlog help TOPIC`` says, from records, glossary and docstrings."""

import ast
import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

from fitlog.records.models.session import MEASURES, Shot
from fitlog.records.models.setup import Setup
from fitlog.records.schema.fields import UNIT_WORDS, format_choice, kinds_of, table_schema
from fitlog.records.schema.json_schema import NAMES, schema
from fitlog.records.wording.glossary import GROUPS, KEY_MEANINGS, shot_heading
from fitlog.records.wording.units import unit_of_key, unit_symbol
from fitlog.report.document import Block, Document, Heading, Page, Paragraph, Table, plain_row

FILES = {
    "workspace": "workspace.toml",
    "player": "players/ID/player.toml",
    "bag": "players/ID/bag.toml",
    "session": "players/ID/sessions/DATE-ID.toml",
    "head": "parts/heads/ID.toml",
    "shaft": "parts/shafts/ID.toml",
    "grip": "parts/grips/ID.toml",
    "ball": "parts/balls/ID.toml",
    "importer": "importers/ID.toml",
    "venue": "venues/ID.toml",
    "search": "players/ID/searches/ID.toml",
}
_HEADS = ("Key", "Type", "Unit", "Meaning", "Example")
_FEW = 8  # choices that a table has room for
_TYPES = {"number": "number", "integer": "whole number", "string": "text", "boolean": "true or false"}
_ROOMS = {
    "bench": "Club arithmetic",
    "flight": "Flight",
    "evidence": "Statistics of shots",
    "prediction": "Predictions",
}


def files() -> Document:
    """Every key of every file, from the records."""
    setup = table_schema(Setup)
    blocks: list[Block] = [
        Paragraph("Any key may be left out unless it is marked required: not known is not zero."),
        Paragraph("A key of your own stands in the table own, as own.paint_code; fitlog keeps it."),
        Heading("A setup: in [[club]] of bag.toml, and as setup of a test"),
        _key_table(setup),
    ]
    for name in NAMES:
        blocks += [Heading(FILES.get(name, name)), _key_table(schema(name), frozenset(setup["properties"]))]
    return _sheet("The files", "every key: type, unit, meaning, example", blocks)


def _key_table(schema: Mapping[str, Any], elsewhere: frozenset[str] = frozenset()) -> Table:
    rows = tuple(plain_row(*row) for row in _key_rows(schema, "", elsewhere))
    return Table(_HEADS, rows)


def _key_rows(schema: Mapping[str, Any], prefix: str, elsewhere: frozenset[str]) -> Iterator[tuple[str, ...]]:
    """A row for each key; a setup's keys inside a club or test stand apart."""
    required = schema.get("required", ())
    for key, kind in schema.get("properties", {}).items():
        name, inner = prefix + key, _tables_in(kind)
        if prefix and inner and key == "setup":
            yield name, "a setup", "", kind.get("title", ""), ""
            continue
        if prefix == "club." and key in elsewhere:
            continue
        if kind.get("type") != "object":
            unit = unit_symbol(unit_of_key(key))
            yield name, _type_text(kind) + (", required" if key in required else ""), unit, *_describe_key(name, kind)
        for table in inner:
            yield from _key_rows(table, name + ".", elsewhere)


def _tables_in(kind: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    if kind.get("type") == "array":
        return [each for each in kind["items"].get("anyOf", [kind["items"]]) if each.get("type") == "object"]
    return [kind] if kind.get("type") == "object" else []


def _type_text(kind: Mapping[str, Any]) -> str:
    """The type in words: ``number, 10 to 60``; ``list of text``."""
    if kind.get("type") == "array":
        inside = [_type_text(each) for each in kind["items"].get("anyOf", [kind["items"]])]
        return "tables, one each [[…]]" if inside == ["table"] else f"list of {format_choice(inside)}"
    if kind.get("type") == "object":
        return "table"
    if form := kind.get("format"):
        return str(form)
    text = _TYPES[kind["type"]]
    if "minimum" in kind:
        return f"{text}, {kind['minimum']:g} to {kind['maximum']:g}"
    return text


def _describe_key(name: str, kind: Mapping[str, Any]) -> tuple[str, str]:
    """What the key means, with its choices, and an example."""
    options = [str(each) for each in kind.get("enum", ())]
    steps = name.split(".")
    label = KEY_MEANINGS.get(".".join(steps[-2:])) or KEY_MEANINGS.get(steps[-1]) or str(kind.get("title", ""))
    if 0 < len(options) <= _FEW and not any(each in label for each in options):
        label += f": {format_choice(options)}"
    examples = kind.get("examples") or (options[:1] if options else [])
    return label, f"{examples[0]}" if examples else ""


def words() -> Document:
    """The glossary."""
    blocks: list[Block] = []
    for title, terms in GROUPS.items():
        rows = tuple(plain_row(each.word, each.meaning, unit_symbol(each.unit)) for each in terms)
        blocks += [Heading(title), Table(("Word", "Meaning", "Unit"), rows)]
    return _sheet("Words", "what each means in fitlog", blocks)


def columns() -> Document:
    """What a shot's columns are, and how one is typed."""
    kinds = kinds_of(Shot)
    rows = []
    for key in MEASURES:
        unit = unit_of_key(key)
        heading = shot_heading(key, kinds[key].label)
        rows.append(plain_row(key, kinds[key].label, UNIT_WORDS.get(unit, ""), heading, _example(kinds[key])))
    blocks: list[Block] = [
        Paragraph(
            "A session has columns: the numbers typed for each shot, in that order, with spaces between. "
            "Words for how it felt follow the last number or a '. A - stands for a number not measured."
        ),
        Paragraph(
            "Right of target is positive for every player: 4R or 4 is right, 4L or -4 left. So are toe and high."
        ),
        Table(("Column", "Meaning", "Unit in the file", "Short head", "Example"), tuple(rows)),
        Paragraph("The files hold these units; screens and sheets print the ones that the workspace prefers."),
    ]
    return _sheet("Columns of a shot", "what is logged of each ball", blocks)


def _example(kind: Any) -> str:
    return str(getattr(kind, "example", ""))


def formulas() -> Document:
    """Each public computation that names its source, from its docstring."""
    blocks: list[Block] = []
    for room, title in _ROOMS.items():
        for function, text in _computations(room):
            if not blocks or not any(isinstance(each, Heading) and each.text == title for each in blocks):
                blocks.append(Heading(title))
            blocks.append(Paragraph(function))
            blocks += [Paragraph(each) for each in text]
    return _sheet("Formulas", "each public computation, as its docstring states it", blocks)


def _computations(room: str) -> Iterator[tuple[str, list[str]]]:
    """Each computation of a room, as ROOM.MODULE.FUNCTION, and its docstring."""
    house = Path(__file__).parents[2]
    for path in sorted((house / room).rglob("*.py")):
        module = ".".join(path.relative_to(house).with_suffix("").parts)
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for each in tree.body:
            stated = ast.get_docstring(each) if isinstance(each, ast.FunctionDef) else None
            if stated and "Source:" in stated and not each.name.startswith("_"):  # type: ignore[attr-defined]
                yield f"{module}.{each.name}", _paragraphs(stated)  # type: ignore[attr-defined]


def _paragraphs(stated: str) -> list[str]:
    """The docstring's paragraphs without examples and marks around code."""
    text = re.split(r"\n\s*>>>", stated)[0].replace("``", "")
    return [" ".join(each.split()) for each in re.split(r"\n\s*\n", text) if each.strip()]


def keys() -> Document:
    """Every key of the app."""
    from fitlog.tui.base.commands import keys as known

    rows = tuple(
        plain_row(known.format_key(each.key), known.format_key(each.line_key), each.name, each.help)
        for each in vars(known).values()
        if isinstance(each, known.CommandKey)
    )
    blocks: list[Block] = [
        Paragraph("One key means one thing on every screen; ? names those of the screen that you are on."),
        Paragraph(
            "Where a line to type in has the focus, letters belong to it: the second column gives the key there."
        ),
        Table(("Key", "While typing", "Does", "What it is for"), rows),
    ]
    return _sheet("Keys", "what each does in the app", blocks)


def _sheet(title: str, subtitle: str, blocks: list[Block]) -> Document:
    return Document(title, (Page(title, subtitle, tuple(blocks), long=True),), "fitlog help lists the commands.")


TOPICS: dict[str, tuple[str, Callable[[], Document]]] = {
    "files": ("every key of every file: type, unit, meaning, example", files),
    "keys": ("every key of the app", keys),
    "words": ("what the words mean", words),
    "formulas": ("each computation: formula, units, errors, source", formulas),
    "columns": ("what is logged of a shot, and how it is typed", columns),
}
