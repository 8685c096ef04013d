"""What is read in one piece: a day, a change, a number with its unit or sign."""

import re

PIECES = re.compile(
    r"\b\d{4}-\d{2}-\d{2}\b"
    r"|[−±≈]?\d[\d.,]*°? → [−±]?\d[\d.,]*(?:°| (?:yd|m|mm|in|g|cpm|mph)\b)?"
    r"|\d[\d.]* × \d[\d.]* (?:yd|m)\b"
    r"|(?:[−±≈+] ?)?\d[\d.,]* (?:yd|m|mm|in|g|cpm|mph|km/h|m/s|rpm|points|°C|°F|%|hPa|kg/m³)(?!\w)"
    r"|\d+ (?:[✓✗?] (?:met|missed|cannot tell)|keep|reject|retest|open)\b"
)
_NO_BREAK = "\N{NO-BREAK SPACE}"


def hold(text: str) -> str:
    """The text with the spaces inside its pieces held: no line is broken there.

    >>> hold("carries 5 yd farther").split(" ")
    ['carries', '5\\xa0yd', 'farther']
    """
    return PIECES.sub(lambda found: found[0].replace(" ", _NO_BREAK), text)


def release(text: str) -> str:
    """The text with plain spaces again.

    >>> release(hold("5 yd"))
    '5 yd'
    """
    return text.replace(_NO_BREAK, " ")
