"""Keys as people write them: known ones, one's own, and the one that is meant."""

from functools import lru_cache

from fitlog.records.errors import UsageError
from fitlog.records.schema.fields import OWN, format_choice, known_keys
from fitlog.records.schema.keyed_rows import kind_in_row, record_of_rows, row_key
from fitlog.records.schema.similar_keys import find_similar


@lru_cache(256)
def similar_keys(key: str, *records: type) -> tuple[str, ...]:
    """The known keys that an unknown dotted key resembles, the likeliest first.

    There are none where it is like no other.

    >>> from fitlog.records.models.setup import Setup
    >>> [similar_keys(key, Setup)[0] for key in ("length", "length_cm", "lenght_in", "head.weight", "tip_trim_in")]
    ['length_in', 'length_in', 'length_in', 'head.mass_g', 'shaft.tip_trim_in']
    >>> similar_keys("paint_code", Setup)
    ()
    """
    known = known_keys(*records)
    if key in known or key.partition(".")[0] == OWN:
        return ()
    return find_similar(key, known)


def check_key(key: str, *records: type) -> None:
    """Raise UsageError for a key neither known nor a person's own (``own.``).

    >>> from fitlog.records.models.setup import Setup
    >>> check_key("own.paint_code", Setup)
    """
    first, _, rest = key.partition(".")
    if key in known_keys(*records) or (first == OWN and rest):
        return
    if any(kind_in_row(key, record) for record in records):
        return
    if (row := row_key(key)) and (
        inner := next(filter(None, (record_of_rows(row.rows, each) for each in records)), None)
    ):
        meant = tuple(f"{row.rows}.{row.name}.{each}" for each in similar_keys(row.key, inner))
        all_of_row = tuple(f"{row.rows}.{row.name}.{each}" for each in known_keys(inner))
        raise UsageError(f"there is no key '{key}'", do=f"write {format_choice(meant or all_of_row)}")
    meant = similar_keys(key, *records)
    if meant:
        raise UsageError(
            f"there is no key '{key}'", do=f"write {format_choice(meant)}; a key of your own is {OWN}.{key}"
        )
    raise UsageError(f"there is no key '{key}'", do=f"to keep one of your own, write {OWN}.{key}")
