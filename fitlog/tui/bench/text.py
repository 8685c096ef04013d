"""The bench in words."""

ABOUT = (
    "Every value that goes into the club's arithmetic, and how it is known: measured on the bench, as stated,",
    "from stock (filled from the part's file), or assumed (a customary value). Nothing is saved by changing it.",
    "⏎ types the chosen value and everything follows at each key; ← → move it by a step; t takes it back.",
    "v finds a value by any part of its name. What is aimed at belongs to the club and is saved with it.",
    "n makes a candidate of it, i writes it into the bag with a reason. + starts a blank sheet.",
    "Weights are place and grams: back 8, tip 2. Stock: 1 to 9 puts that build on the bench.",
    "Rules of thumb are in brackets; the numbers before them are this club's own.",
)
