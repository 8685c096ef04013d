"""What the Bag's screen knows: the bag, its review, the marked club, the pane."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from fitlog.tui.text.sanitize import safe

if TYPE_CHECKING:
    from fitlog.views.bag.ladder import BagLadder
    from fitlog.views.bag.overview import BagOverview, ClubView
    from fitlog.views.bag.review import BagReview
    from fitlog.views.history.why import Step

VALUES, LADDER, SWINGS, REMARKS = "values", "ladder", "swings", "remarks"
NO_CLUB = "no club is chosen: + adds one to the bag"
BROKEN_BAG = 'this bag cannot be shown: it is broken, see below; " puts it back'


class BagState:
    """One player's bag; ``address`` is the chosen club's."""

    def __init__(self, player: str) -> None:
        self.player = player
        self.overview: BagOverview | None = None
        self.review: BagReview | None = None
        self.origins: dict[str, Mapping[str, Step]] = {}  # since when and why of each value, by club
        self.address = ""
        self.pane = VALUES
        self._ladder: BagLadder | None = None

    def update(self, overview: "BagOverview") -> None:
        """Take in the bag as read anew; its review stays until the next one."""
        self.overview = overview
        self._ladder = None

    def forget_origins(self) -> None:
        """What is known of the values' origins holds no longer."""
        self.origins.clear()

    def set_review(self, review: "BagReview | None") -> None:
        """Take in what was found in the bag; None where it cannot be read."""
        self.review = review
        self._ladder = None
        if self.pane not in self.panes:
            self.pane = VALUES

    @property
    def club(self) -> "ClubView | None":
        """The chosen club."""
        clubs = self.overview.clubs if self.overview else ()
        return next((each for each in clubs if each.club.address == self.address), None)

    @property
    def trouble(self) -> tuple[str, ...]:
        """What is wrong with the files."""
        return self.overview.trouble if self.overview else ()

    @property
    def ladder(self) -> "BagLadder":
        """The ladder of the clubs, on carries as soon as they are known."""
        from fitlog.views.bag.ladder import build_ladder

        if self._ladder is None:
            found = self.review
            clubs = self.overview.clubs if self.overview else ()
            self._ladder = build_ladder(clubs, found.carries if found else (), found.steps if found else ())
        return self._ladder

    @property
    def panes(self) -> tuple[str, ...]:
        """The panes beside the clubs; wedges by swing where there are any."""
        swings = (SWINGS,) if self.review and self.review.swings else ()
        return (VALUES, LADDER, *swings, REMARKS)

    @property
    def remarks_that_matter(self) -> int:
        """How many remarks a person should look at."""
        listed = self.review.remarks.listed if self.review else ()
        return sum(each.weighty for each in listed) + len(self.trouble)

    def turn(self, by: int) -> None:
        """Choose another pane."""
        panes = self.panes
        self.pane = panes[(panes.index(self.pane) + by) % len(panes)]

    def trail(self) -> tuple[str, ...]:
        """Where one is, for the top row."""
        overview = self.overview
        if overview is None:
            return (safe(self.player), "bag")
        hand = f"{overview.player.hand}-handed" if overview.player.hand else ""
        season = f"season {safe(overview.bag.season)}" if overview.bag.season else ""
        ball = safe(overview.bag.ball.model) if overview.bag.ball.model else ""
        carried = "" if overview.trouble else f"{len(overview.bag.carried)} carried"
        return tuple(filter(None, (safe(overview.player.name), hand, season, ball, carried)))
