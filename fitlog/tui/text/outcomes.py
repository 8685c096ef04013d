"""The mark, the words and the ink of an outcome."""

from fitlog.views.evidence.standings import OUTCOMES as LABELS

INKS = {"good": "$ink-good", "bad": "$ink-bad", "open": "$ink-warn"}
OUTCOMES = {outcome: (label.text, INKS[label.tone]) for outcome, label in LABELS.items()}
