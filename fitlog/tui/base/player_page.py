"""What the screens of one player share: going from one to another, and the deeds that work from several."""

from typing import TYPE_CHECKING

from fitlog.tui.base.page import Page
from fitlog.tui.text.sanitize import safe

if TYPE_CHECKING:
    from fitlog.records.session import ClubTest


class PlayerPage(Page):
    """A screen of one player; ``slot`` is the club's address that deeds are about, where there is one."""

    def __init__(self, player: str) -> None:
        super().__init__()
        self.player = player
        self.player_name = player
        self.wanted_slot = ""

    @property
    def slot(self) -> str:
        """The club that is meant."""
        return ""

    @property
    def change(self) -> str:
        """The commit that the cursor is on, where there is one."""
        return ""

    def trail(self) -> tuple[str, ...]:
        return (safe(self.player_name), self.page)

    # going

    def do_session(self) -> None:
        """The tests of today, or the latest."""
        from fitlog.tui.session.page import SessionPage

        self.go(SessionPage(self.player, slot=self.slot))

    def do_decide(self) -> None:
        """The verdict that waits."""
        from fitlog.tui.verdict.page import VerdictPage

        self.go(VerdictPage(self.player, slot=self.slot))

    def do_history(self) -> None:
        """Every change."""
        from fitlog.tui.timeline.page import TimelinePage

        self.go(TimelinePage(self.player, self.slot))

    def do_bench(self) -> None:
        """The club, or the test that is marked, on the bench."""
        from fitlog.tui.bench.page import BenchPage

        self.go(BenchPage(self.player, self.bench_wanted))

    @property
    def bench_wanted(self) -> str:
        """What is laid on the bench: the address of the marked test or of the club; empty for a blank sheet."""
        where = str(getattr(self, "where", ""))
        return where if where.partition("#")[2] else self.slot

    # deeds

    def ask_what_it_must_show(self, test: "ClubTest", where: str) -> None:
        """Ask for a test's criteria, then read the screen anew."""
        from fitlog.tui.dialogs.criteria import MustShow

        name = f"{safe(test.slot)} {test.role} {test.id}"
        now = [each._asdict() for each in test.criteria]
        self.app.push_screen(
            MustShow(self.player, where, name, now, len(test.shots)), lambda saved: self.load() if saved else None
        )

    def do_ball(self) -> None:
        """Another ball."""
        from fitlog.tui.session.details import BallPlayed

        self.app.push_screen(BallPlayed(self.player))

    def do_makeups(self) -> None:
        """The make-ups."""
        from fitlog.tui.bag.makeups import MakeUps

        self.app.push_screen(MakeUps(self.player))

    def do_go_back(self) -> None:
        """Back to the last proven setup, or to a change."""
        from fitlog.tui.dialogs.confirmations import go_back

        self.app.push_screen(go_back(self.player, self.slot, self.change))

    def do_proven(self) -> None:
        """Mark as proven."""
        from fitlog.tui.dialogs.confirmations import mark_proven

        self.app.push_screen(mark_proven(self.player, self.slot))

    def do_why(self) -> None:
        """Why the values are what they are."""
        from fitlog.tui.dialogs.history.why_value import Why

        if self.slot:
            self.app.push_screen(Why(self.player, self.slot))

    def do_seasons(self) -> None:
        """A season beside a season."""
        from fitlog.tui.dialogs.history.seasons import Seasons

        self.app.push_screen(Seasons(self.player))
