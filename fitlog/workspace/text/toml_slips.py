"""What is wrong in a text that is no TOML, in the words of a person."""

import re

from fitlog.records.wording.units import unit_of_key

_CURLY = "“”„‟«»‘’‚"
_KEY_VALUE = re.compile(r"""\s*("[^"]*"|'[^']*'|[A-Za-z0-9_.\- ]+?)\s*=\s*(.*?)\s*$""")
_FIGURES = re.compile(r"[+-]?\d++(?:\.\d++)?(?![\d_.:eTZ+\-])")
_LONGEST = 1000  # letters of a line that a person wrote; looking for slips takes the square of their number
_YES_NO = {"yes": "true", "true": "true", "on": "true", "no": "false", "false": "false", "off": "false"}
_BARE = re.compile(r"true|false|inf|nan|[+-]?\d[\d_.:eETZ+\-]*")


def describe_slip(text: str, line: int, sentence: str) -> tuple[int, str, str]:
    """The line of a slip, what is wrong there and what to do.

    ``sentence`` is what the parser says of ``line``.

    >>> describe_slip('a = 1\\nhead.model = “Elm 7”\\n', 2, "Invalid value")
    (2, 'the quotes here are curly', 'write plain ones: head.model = "Elm 7"')
    >>> describe_slip('slot = "7i\\n', 1, "Illegal character")[1:]
    ('a quote is missing here', 'write: slot = "7i"')
    """
    lines = text.splitlines()
    number, here = _line_meant(lines, line)
    if len(here) > _LONGEST:
        return number, *_not_toml(sentence)
    key, value = _pair(here)
    bare = value.partition(" #")[0].strip()
    if any(mark in _outside_quotes(here) for mark in _CURLY):
        return number, "the quotes here are curly", f"write plain ones: {_straight(here.strip())}"
    if re.match(r"-?\d+,\d", bare):
        return number, "a number here has a decimal comma", "write a point, as in 45.25"
    if key and (slip := _slip_in_value(key, bare)):
        return number, *slip
    if key and _is_open(bare):
        whole = bare.strip("\"'")
        return number, "a quote is missing here", f'write: {key} = "{whole}"'
    if (figures := _FIGURES.match(bare)) and figures[0] != bare and unit_of_key(key):
        return number, "this number has text behind it", f"write the number alone: {key} = {figures[0]}"
    if key and not re.match(r"[\"'\[{]", bare) and not _BARE.fullmatch(bare):
        return number, "this text has no quotes", f'write: {key} = "{bare}"'
    if not key and (header := _slip_in_header(lines, number, sentence)):
        return header
    if sentence.startswith("Cannot overwrite") and key:
        return number, f"{key} appears twice", "keep one of the two"
    if colon := re.match(r"\s*([\w.\-]+)\s*:\s*(\S.*)", here):
        return number, "a colon stands here in place of =", f"write: {colon[1]} = {colon[2].strip()}"
    if here.strip() and "=" not in here and not here.strip().startswith(("[", "#", "]", "}")):
        return number, "this line has no =", "write lines of the form key = value; a remark begins with #"
    if sentence.startswith("Unclosed"):
        return number, "a bracket is not closed here", "close it, with ] or }, and put commas between what it holds"
    return number, *_not_toml(sentence)


def _not_toml(sentence: str) -> tuple[str, str]:
    return f"this is not TOML: {sentence[:1].lower()}{sentence[1:]}", "write lines of the form key = value"


def _slip_in_value(key: str, bare: str) -> tuple[str, str] | None:
    """What is wrong in a key's value, and what to write; None for none of these."""
    if not bare:
        return f"{key} has no value", "write one after =, or take the line out"
    if bare.startswith("="):
        return "there is one = too many", f"write: {key} = {bare.lstrip('= ') or '…'}"
    if bare.casefold() in _YES_NO and bare not in ("true", "false"):
        return "yes and no are written otherwise", f"write: {key} = {_YES_NO[bare.casefold()]}"
    if bare[-1:] in "\"'″" and _FIGURES.fullmatch(bare[:-1]) and unit_of_key(key):
        return "this number has text behind it", f"write the number alone: {key} = {bare[:-1]}"
    if whole := re.match(r"(\d+)[ -]+(\d+)/(\d+)$", bare):
        value = int(whole[1]) + int(whole[2]) / max(int(whole[3]), 1)
        return "a number here is a fraction", f"write it with a point: {key} = {value:.4f}".rstrip("0").rstrip(".")
    if re.match(r"[+-]?(\.\d+|\d+\.)$", bare):
        number = f"0{bare}" if bare.startswith(".") else f"{bare}0"
        return "a digit is missing beside the point", f"write: {key} = {number}"
    if re.match(r"[+-]?0\d+(\.\d*)?$", bare):
        return "this number begins with a zero", f"write: {key} = {bare.lstrip('0') or '0'}"
    if bare[:1] == bare[-1:] == '"' and bare.count('"') > 2 and not bare.startswith('"""') and "'" not in bare:
        return "a quote stands within the text", f"write the outer ones as ': {key} = '{bare[1:-1]}'"
    return None


def _line_meant(lines: list[str], line: int) -> tuple[int, str]:
    """The line that a person would look at.

    Where the parser stopped at an empty one, the line before may be it.
    """
    number = min(max(line, 1), len(lines)) if lines else 1
    here = lines[number - 1] if lines else ""
    if number > 1 and not here.strip():
        before = lines[number - 2]
        if len(before) <= _LONGEST and _is_open(_pair(before)[1]):
            return number - 1, before
    return number, here


def _slip_in_header(lines: list[str], number: int, sentence: str) -> tuple[int, str, str] | None:
    """What is wrong with the brackets of a table; None for none of these."""
    here = lines[number - 1] if lines else ""
    if (table := re.match(r"\s*\[(\w+)\]", here)) and sentence.startswith("Cannot"):
        return number, f"[{table[1]}] appears a second time", f"write [[{table[1]}]], with two brackets, for each"
    if sentence.startswith("Cannot") and (single := _single_bracket(lines[:number], here)):
        return single, f"{lines[single - 1].strip()} has one bracket", f"write {here.strip()}, as for those after it"
    if here.strip().startswith("[") and here.count("[") != here.count("]"):
        return number, "a bracket is missing here", "close it, as in [[club]]"
    return None


def _single_bracket(above: list[str], here: str) -> int:
    """The line where a list of tables begins with one bracket, 0 for none.

    It takes two.
    """
    name = re.match(r"\s*\[\[([\w.\-]+)\]\]", here)
    wrong = f"[{name[1]}]" if name else ""
    return next((number for number, line in enumerate(above, 1) if wrong and line.strip().startswith(wrong)), 0)


def _pair(line: str) -> tuple[str, str]:
    found = _KEY_VALUE.match(line)
    return (found[1].strip(), found[2]) if found else ("", "")


def _is_open(value: str) -> bool:
    """Whether a value begins or ends with a quote that has no partner."""
    plain = value.strip()
    starts, ends = plain[:1] in ('"', "'"), plain[-1:] in ('"', "'")
    if starts and ends:
        return len(plain) == 1 or plain[0] != plain[-1]
    return (starts or ends) and not plain.startswith(("[", "{")) and plain.count('"') + plain.count("'") == 1


def _outside_quotes(line: str) -> str:
    return re.sub(r"\"[^\"]*\"|'[^']*'|#.*", "", line)


def _straight(line: str) -> str:
    return re.sub(f"[{_CURLY}]", '"', line)
