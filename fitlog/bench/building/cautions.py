"""Workshop cautions for build sheets and the Bench screen.

Common practice, not instructions.
"""

from __future__ import annotations

TAG = "common practice"

CAUTIONS: tuple[str, ...] = (
    "Carbon dust: cut and abrade carbon shafts wet or under extraction, wear a fitted respirator rated for fine"
    " dust, keep the dust off skin and away from live electrics, and clean up wet or with a filtered vacuum.",
    "Epoxy: wear the gloves its data sheet names, work in moving fresh air, keep it off skin,"
    " and stop if skin or breath reacts.",
    "Cure: hit nothing until the joint has cured for the full time at the temperature on the adhesive's data sheet.",
    "Heat: warm a joint no hotter or longer than the shaft's and the adhesive's data sheets allow; pull straight,"
    " do not twist a carbon shaft; hot metal and the fumes of burnt epoxy harm: gloves and extraction.",
    "Eyes: wear eye protection when cutting, grinding, drilling, pulling a head or setting a weight.",
    "Pull test: after the full cure, pull and twist every joint by hand before it is swung,"
    " and look at the ferrule line again after the first balls.",
    "Indoors: first balls into a net that holds, nobody in front of or beside the hitter,"
    " and room for a head that comes loose.",
)
DEFERS = "The adhesive's and the shaft's own data sheets, local codes and trained practice come before any line here."


def lines() -> tuple[str, ...]:
    """Every caution as one line of plain text; the last precedes them all.

    >>> lines()[-1].startswith("The adhesive's and the shaft's own data sheets")
    True
    """
    return (*(f"{caution} ({TAG})" for caution in CAUTIONS), DEFERS)
