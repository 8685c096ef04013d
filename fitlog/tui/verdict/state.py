"""What the Verdict screen knows: the test, its evidence, the decision."""

from typing import TYPE_CHECKING

from fitlog.records.models.session import ClubTest

if TYPE_CHECKING:
    from fitlog.views.evidence.presentation import Presentation
    from fitlog.views.verdict.evidence import Evidence
    from fitlog.views.verdict.preview import Offer, VerdictPreview


class VerdictState:
    """One test of one player; ``test_ref`` is empty for the newest waiting."""

    def __init__(self, player: str, test_ref: str = "", slot: str = "") -> None:
        self.player = player
        self.player_name = player
        self.test_ref = test_ref
        self.preview: VerdictPreview | None = None
        self.decision = ""
        self.is_saving = False
        self._slot = slot

    def update(self, player_name: str, preview: "VerdictPreview") -> None:
        """Take in what was read."""
        self.player_name, self.preview = player_name, preview
        if preview.evidence is not None:
            self.test_ref = preview.evidence.ref

    def turn(self, by: int) -> bool:
        """Go to another test that waits; returns whether there is one."""
        names = self.pending
        if len(names) < 2:
            return False
        place = names.index(self.test_ref) if self.test_ref in names else 0
        self.test_ref, self.preview = names[(place + by) % len(names)], None
        return True

    @property
    def evidence(self) -> "Evidence | None":
        """The evidence in numbers; None before it was read, or where nothing waits."""
        return self.preview.evidence if self.preview else None

    @property
    def presentation(self) -> "Presentation | None":
        """The evidence in words."""
        return self.preview.presentation if self.preview else None

    @property
    def offer(self) -> "Offer | None":
        """What the decision that is chosen will change."""
        return self.preview.offers.get(self.decision) if self.preview else None

    @property
    def is_read(self) -> bool:
        """Whether the evidence was read."""
        return self.preview is not None

    @property
    def test(self) -> ClubTest | None:
        """The test that is shown."""
        return self.evidence.test if self.evidence else None

    @property
    def slot(self) -> str:
        """The address of the club that is tested."""
        return self.test.address if self.test else self._slot

    @property
    def pending(self) -> tuple[str, ...]:
        """The tests that wait for a verdict."""
        return self.preview.pending if self.preview else ()

    @property
    def purpose(self) -> str:
        """What the half-written reason is kept under."""
        return f"verdict {self.player} {self.test_ref}"
