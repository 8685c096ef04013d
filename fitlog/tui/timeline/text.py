"""The timeline in words."""

ABOUT = (
    "Every change of the player, newest first. Tab shows the chosen club's changes alone.",
    "Beside it the differences in words, the reason, and the tests it rests on; g shows them line by line.",
    "b goes back to how the club or the bag was after the marked change. Going back is a new change.",
)
