"""How a test and a club are named.

A test is SESSION#TEST; a club is its slot, with its id where two share it.
"""

from typing import NamedTuple

from fitlog.records.errors import UsageError

_MARK = "#"


class TestRef(NamedTuple):
    """A test by its session and its id in it; as text ``2026-04-18-q7k#b4t``."""

    session: str
    test: str

    def __str__(self) -> str:
        return f"{self.session}{_MARK}{self.test}"

    @classmethod
    def parse(cls, text: str) -> "TestRef":
        """Read a whole reference; raises UsageError where a half is missing.

        >>> TestRef.parse("2026-04-18-q7k#b4t").test, str(TestRef("2026-04-18-q7k", "b4t"))
        ('b4t', '2026-04-18-q7k#b4t')
        """
        session, mark, test = text.partition(_MARK)
        if not (mark and session and test):
            raise UsageError(f"'{text}' does not name a test", do="write SESSION#TEST, such as 2026-04-18-q7k#b4t")
        return cls(session, test)

    @classmethod
    def split(cls, text: str) -> "TestRef":
        """Read what may be a session alone: its ``test`` is empty then.

        >>> TestRef.split("last").test
        ''
        """
        session, _, test = text.partition(_MARK)
        return cls(session, test)


class ClubRef(NamedTuple):
    """A club by its slot, with its id where two share the slot.

    Its text is ``3w`` or ``3w#q7k``.
    """

    slot: str
    id: str = ""

    def __str__(self) -> str:
        return f"{self.slot}{_MARK}{self.id}" if self.id else self.slot

    @classmethod
    def parse(cls, text: str) -> "ClubRef":
        """Read ``SLOT`` or ``SLOT#ID``; whether a bag has it is another question.

        >>> ClubRef.parse("3w#q7k"), str(ClubRef.parse("3w"))
        (ClubRef(slot='3w', id='q7k'), '3w')
        """
        slot, _, club_id = text.partition(_MARK)
        return cls(slot, club_id)
