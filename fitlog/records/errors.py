"""Errors that a person reads: each says what is wrong, where, and what to do."""

from typing import NamedTuple


class FitlogError(Exception):
    """One sentence for a person: ``where: what; do``.

    ``what`` names the trouble, ``where`` the file, line and key (or the argument), ``do`` the way out.
    ``status`` is the exit status of a command that ends with it: 1 a finding or a refusal, 2 wrong usage.
    """

    status = 1

    def __init__(self, what: str, *, where: str = "", do: str = "") -> None:
        super().__init__(what, where, do)
        self.what, self.where, self.do = what, where, do

    def __str__(self) -> str:
        sentence = f"{self.where}: {self.what}" if self.where else self.what
        return f"{sentence}; {self.do}" if self.do else sentence


class Refusal(FitlogError):
    """What was asked cannot be done with these values; nothing was changed."""


class UsageError(FitlogError):
    """The call itself is wrong: an unknown name, a value of the wrong form."""

    status = 2


class Problem(NamedTuple):
    """One thing wrong in one file.

    ``line`` is 0 where none can be named; ``beyond`` is a limit of the reader.
    """

    file: str
    line: int
    key: str
    what: str
    do: str
    beyond: bool = False

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        key = f"{self.key}: " if self.key else ""
        return f"{place}: {key}{self.what}" + (f"; {self.do}" if self.do else "")


class BrokenFile(FitlogError):
    """A file that cannot be read as what it should be.

    It is left as it is until a person mends it.
    """

    def __init__(self, problems: list[Problem]) -> None:
        super().__init__("\n".join(map(str, problems)))
        self.problems = problems
