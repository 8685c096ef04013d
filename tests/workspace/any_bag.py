"""Bag files in anybody's hand: however a table is laid out."""

from datetime import date
from typing import Any

from hypothesis import strategies as st

PARTS = {
    "head": {"model": "Alder", "loft_deg": 16.0},
    "shaft": {"model": "Gorse 70", "tip_trim_in": 0.5},
    "grip": {"model": "Elm", "tape_wraps": 2},
}


quoting = st.sampled_from(["{}", "{}", '"{}"', "'{}'"])


gaps = st.sampled_from(["", "", "\n", "# own line\n", "\n# own line\n\n", "   \n"])


remarks = st.sampled_from(["", "", "  # remark", "# close"])


indents = st.sampled_from(["", "", "  ", "\t"])


equals = st.sampled_from([" = ", "=", "   =  "])


@st.composite
def lines(draw: st.DrawFn, key: str, value: Any) -> str:
    said = f'"{value}"' if isinstance(value, str) else repr(value)
    dotted = draw(st.sampled_from([".", ".", " . "])).join(draw(quoting).format(step) for step in key.split("."))
    return f"{draw(gaps)}{draw(indents)}{dotted}{draw(equals)}{said}{draw(remarks)}\n"


@st.composite
def components(draw: st.DrawFn, name: str) -> tuple[list[str], str]:
    """A component as lines of its club, or as a table behind it."""
    style = draw(st.sampled_from(["dotted", "inline", "table"]))
    values = PARTS[name]
    if style == "dotted":
        return [draw(lines(f"{name}.{key}", value)) for key, value in values.items()], ""
    if style == "inline":
        inside = ", ".join(
            draw(lines(key, value)).splitlines()[-1].partition("#")[0] for key, value in values.items()
        )
        return [f"{draw(gaps)}{draw(quoting).format(name)}{draw(equals)}{{ {inside} }}{draw(remarks)}\n"], ""
    inside = "".join(draw(lines(key, value)) for key, value in values.items())
    return [], f"{draw(gaps)}{draw(indents)}[club.{name}]{draw(remarks)}\n{inside}"


@st.composite
def clubs(draw: st.DrawFn, slot: str) -> str:
    own = [draw(lines("slot", slot)), draw(lines("length_in", 43.0))]
    if draw(st.booleans()):
        own.append('"odd.key" = 1\nodd = {a = 1, "b c" = 2}\n')
    behind = []
    for name in PARTS:
        if draw(st.booleans()):
            mine, table = draw(components(name))
            own += mine
            behind += [table] if table else []
    if draw(st.booleans()):
        behind.append("[[club.sub]]\nx = 1\n\n[[club.sub]]\nx = 2\n")
    return f"{draw(gaps)}{draw(indents)}[[club]]{draw(remarks)}\n" + "".join(draw(st.permutations(own)) + behind)


@st.composite
def bags(draw: st.DrawFn) -> str:
    blocks = [draw(clubs(slot)) for slot in draw(st.sampled_from([("3w",), ("driver", "3w"), ("3w", "7i", "pw")]))]
    top = draw(lines("season", "2026"))
    ball = draw(st.sampled_from(["", "dotted", "inline", "table"]))
    if ball == "dotted":
        top += 'ball.model = "Sky"\nball.year = 2025\n'
    elif ball == "inline":
        top += 'ball = {model = "Sky", year = 2025} # round\n'
    elif ball == "table":
        blocks.insert(draw(st.integers(0, len(blocks))), '[ball]\nmodel = "Sky" # round\nyear = 2025\n')
    text = top + "".join(blocks) + draw(gaps)
    if draw(st.booleans()):
        text = text.rstrip("\n")
    return text.replace("\n", "\r\n") if draw(st.booleans()) else text


edits = st.sampled_from(
    [
        (("head", "model"), "Oak 8"), (("head", "cc"), 180.0), (("shaft", "tip_trim_in"), 1.25),
        (("length_in",), 42.25),
        (("sleeve", "position"), "STD"), (("evidence",), ["2026-02-02-kkk#abc"]), (("since",), date(2026, 4, 18)),
    ]
)  # fmt: skip
