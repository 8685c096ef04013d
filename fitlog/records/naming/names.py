"""Ids made of names: readable ones, of names in any script."""

import re
from collections.abc import Iterable
from itertools import count

_LONGEST = 40


def id_from(name: str) -> str:
    """A readable id made of a name in any script.

    The id is empty where nothing of the name can be spelled.

    >>> id_from("Åsa Öberg"), id_from("Мария О'Нил"), id_from("李小花"), id_from("!!")
    ('asa-oberg', 'mariya-o-nil', 'lixiaohua', '')
    """
    from anyascii import anyascii

    return re.sub(r"[^a-z0-9]+", "-", anyascii(name[: 4 * _LONGEST]).lower()).strip("-")[:_LONGEST].strip("-")


def free_id(name: str, taken: Iterable[str], otherwise: str = "") -> str:
    """An id made of a name that no other has.

    A number is put behind it where it is taken.

    >>> free_id("Mo", ["mo", "mo-2"]), free_id("?", [], "player")
    ('mo-3', 'player')
    """
    known, wanted = set(taken), id_from(name) or otherwise
    return next(made for n in count(1) if (made := wanted if n == 1 else f"{wanted}-{n}") not in known)
