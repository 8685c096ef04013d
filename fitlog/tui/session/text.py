"""A session in rows and words: tests, the marked one's shots, the prompt."""

from collections.abc import Callable, Mapping, Sequence, Set

from rich.cells import cell_len
from textual.content import Content

from fitlog.evidence.pattern.picture import Series
from fitlog.evidence.shots.quantities import is_sided_key
from fitlog.evidence.shots.wording import with_side
from fitlog.records.models.session import REFERENCE, ClubTest, Shot, name_test
from fitlog.tui.session.side_by_side import Side
from fitlog.tui.text.numbers import format_counts, format_verdict, head_of, mean_and_spread, series_of
from fitlog.tui.text.sanitize import safe
from fitlog.tui.text.units import Units
from fitlog.tui.widgets.rows import Cell, Column, Row
from fitlog.tui.widgets.scroll_text import Piece, line
from fitlog.tui.widgets.shot_plot import MARKS, NOT_DRAWN

ABOUT = (
    "Reference and candidates of one slot side by side; the line below takes the shots of the marked test.",
    "Type the numbers in the order of the columns with spaces between, then Enter. - is not measured.",
    "Words after the numbers are kept as the feel. 12L or -12 is 12 left of target, 12 or 12R right of it.",
    "Right of target is positive for every player. Toe and high on the face are positive.",
    "Heel-toe and draw-fade go by the player's hand: a draw curves right to left for a right-hander and"
    " left to right for a left-hander, a fade the other way.",
    "n counts the shots that count; ± is the spread (one standard deviation).",
    "@ shows and changes place, ball and air: carries are compared, and flights computed, in the air noted here.",
)

FEEL = "feel"
_FIRST = ("carry_yd", "offline_yd")
_NUMBER, _FEEL, _FEEL_READ = 3, 6, 26  # cells of a number; of the feel at least, and to be read
_LEAST, _TIGHT = 6, 5  # cells of a number, and where there is little room


def without_test(slot: str, has_others: bool) -> Content:
    """What to do without a test of the club; ``has_others`` if others have one."""
    why, key = "no test yet; ", "^r"
    does = " hits the bag's club as reference now, ^n sets up a candidate: the bag's club, but …"
    if has_others:
        why, key = f"no test of the {safe(slot)} in this session; ", "tab"
        does = " goes to the tests of other clubs, ^r hits the bag's club as reference now"
    elif not slot:
        key, does = "esc", " goes back to the bag, where a club is chosen to test; + adds one"
    return line((why, "$ink-muted"), (key, "bold $ink-accent"), (does, "$ink-muted"))


def pick_tests(tests: Sequence[ClubTest], marked_id: str) -> list[ClubTest | None]:
    """The picture's tests by series: reference (or None), then candidates.

    Where there are more than the picture tells apart, it shows those around the marked one.
    """
    references = [each for each in tests if each.role == REFERENCE]
    candidates = [each for each in tests if each.role != REFERENCE]
    most = len(MARKS) - 1
    at = next((n for n, each in enumerate(candidates) if each.id == marked_id), len(candidates) - 1)
    start = max(0, min(at - most // 2, len(candidates) - most))
    chosen = next((each for each in references if each.id == marked_id), references[0] if references else None)
    return [chosen, *candidates[start : start + most]]


def mark_of(test: ClubTest, pictured: Sequence[ClubTest | None]) -> str:
    """The mark of a test in the picture."""
    return next((MARKS[n] for n, each in enumerate(pictured) if each and each.id == test.id), NOT_DRAWN)


def all_series(
    pictured: Sequence[ClubTest | None], shots_of: Callable[[ClubTest], Sequence[Shot]], units: Units
) -> list[Series]:
    """The series of the picture."""
    return [series_of(each.id, shots_of(each), units) if each else Series("reference", ()) for each in pictured]


def side_of(
    test: ClubTest,
    shots: Sequence[Shot],
    mark: str,
    text: str,
    columns: Sequence[str],
    units: Units,
    is_marked: bool,
    name: str,
) -> Side:
    """One test of those side by side, by its ``name`` among them."""
    counted = [shot for shot in shots if not shot.excluded]
    numbers = [format_counts(shots), *(mean_and_spread(counted, key, units) for key in columns), format_verdict(test)]
    return Side(mark, safe(name), safe(text), numbers, is_marked, is_whole=test.role != REFERENCE)


def weightiest_first(columns: Sequence[str], judged_keys: Set[str] = frozenset()) -> list[str]:
    """What criteria measure, carry and offline, then the others as they are typed."""
    return sorted(columns, key=lambda key: (key not in judged_keys, key not in _FIRST))


# the shots


def table_width(columns: Sequence[str], units: Units, feel: int) -> int:
    """The cells that a table of all these columns takes without units.

    ``feel`` are the cells of the longest feel.
    """
    heads = [_without_unit(head_of(key, units), key, units) for key in columns]
    widths = [
        _head_width(each, _LEAST if is_sided_key(key) else _TIGHT) for each, key in zip(heads, columns, strict=True)
    ]
    return 1 + (_NUMBER + 2) + sum(widths) + max(_FEEL, min(feel, _FEEL_READ)) + 2


def shot_columns(
    columns: Sequence[str], units: Units, width: int, feel: int = 0, whole_feel: bool = False
) -> tuple[list[str], list[Column]]:
    """The columns as typed; without room, without units, then without feel.

    Then carry and offline come first. Where the longest ``feel``, in cells, would be cut, it comes before units;
    with ``whole_feel`` it has no column where it would be cut still.

    >>> keys = ["ball_speed_mph", "launch_deg", "carry_yd", "offline_yd"]
    >>> def titles(width):
    ...     return [each.title for each in shot_columns(keys, Units(), width)[1]]
    >>> titles(80)
    ['', 'ball mph', 'launch °', 'carry yd', 'offline yd', 'feel']
    >>> titles(49)
    ['', 'ball', 'launch', 'carry', 'offline', 'feel']
    >>> titles(38)
    ['', 'ball', 'launch', 'carry', 'offline']
    >>> titles(26)
    ['', 'carry', 'offline']
    >>> [each.title for each in shot_columns(keys, Units(), 62, feel=14)[1]]
    ['', 'ball', 'launch', 'carry', 'offline', 'feel']
    """
    heads = {key: head_of(key, units) for key in columns}
    room = width - 1 - (_NUMBER + 2)
    least = _LEAST
    if sum(_head_width(each, least) for each in heads.values()) > room - (max(_FEEL, min(feel, _FEEL_READ)) + 2):
        heads = {key: _without_unit(head, key, units) for key, head in heads.items()}
        least = _TIGHT
    widths = {key: _head_width(head, _LEAST if is_sided_key(key) else least) for key, head in heads.items()}
    visible = list(columns)
    if sum(widths.values()) > room:
        visible = []
        for key in weightiest_first(columns):
            if sum(widths[each] for each in visible) + widths[key] <= room:
                visible.append(key)
    made = [Column("", _NUMBER, right=True)]
    made += [Column(heads[key], widths[key] - 2, right=True) for key in visible]
    if sum(widths[key] for key in visible) + max(_FEEL, feel if whole_feel else 0) + 2 <= room:
        made.append(Column(FEEL, _FEEL, grow=1))
    return visible, made


def _without_unit(head: str, key: str, units: Units) -> str:
    return head.removesuffix(units.symbol(key)).strip()


def _head_width(head: str, least: int = _LEAST) -> int:
    return max(cell_len(head), least) + 2


def shot_row(
    number: int,
    shot: Shot,
    columns: Sequence[str],
    units: Units,
    question: str = "",
    below: Sequence[str] = (),
    has_feel: bool = True,
) -> Row:
    """One shot; one left out says why, one that looks wrong says what.

    ``below`` are the columns that stand under it, each with its name, as the feel does without a column of its own.
    """
    tone = "muted" if shot.excluded else ""
    cells: list[Cell] = [(f"{number}{'×' if shot.excluded else '?' if question else ''}", "muted")]
    cells += [(_shot_value(key, getattr(shot, key), units), tone) for key in columns]
    note = safe(f"left out: {shot.excluded}" if shot.excluded else " ".join(filter(None, (shot.feel, question))))
    note_tone = "warn" if shot.excluded or question else "muted"
    names = [
        f"{head_of(key, units)} {_shot_value(key, value, units)}"
        for key in below
        if (value := getattr(shot, key)) is not None
    ]
    if has_feel:
        return Row(shot.id or str(number), [*cells, (note, note_tone)], ("   ".join(names), "muted") if names else "")
    under = "   ".join(filter(None, (*names, note)))
    return Row(shot.id or str(number), cells, (under, note_tone) if under else "")


def _shot_value(key: str, value: float | None, units: Units) -> str:
    """Format a shot's value without its unit; to the side with L or R.

    >>> _shot_value("offline_yd", -3.0, Units()), _shot_value("spin_rpm", 2410.0, Units())
    ('3.0 L', '2410')
    """
    text = units.text(key, value)
    return with_side(key, text) if value is not None else text


# the line


def prompt(mark: str, slot: str, name: str, number: int = 0, is_blind: bool = False) -> Content:
    """What Enter does: the club that gets the shot, or the shot to correct.

    name: the test's among those of the session, a blind club's code; empty where there is no test.
    """
    if not name:
        return line(("›", "bold $ink-accent"))
    club = f" {safe(slot)} {safe(name)} "
    what = f" correct shot {number} ›" if number else " ›" if is_blind else f" {mark} ›"
    return line((club, "bold reverse $ink-accent"), (what, "bold $ink-accent"))


def format_line(shot: Shot, columns: Sequence[str], units: Units) -> str:
    """A shot as it would be typed."""
    values = [units.text(key, value) if (value := getattr(shot, key)) is not None else "-" for key in columns]
    return " ".join([*values, *([f"'{shot.feel}"] if shot.feel else [])])


def column_prompt(columns: Sequence[str], index: int, units: Units, width: int) -> Content:
    """The columns in typed order, the next one strong.

    Where they do not all fit with their units, the next one alone has its unit; those that still do not fit come as
    the typing goes on.
    """
    names = [*(head_of(key, units) for key in columns), "feel, in words"]
    if sum(cell_len(name) + 2 for name in names[:-1]) + 3 > width:
        names[:-1] = [
            name if place == index else _without_unit(name, key, units)
            for place, (name, key) in enumerate(zip(names[:-1], columns, strict=True))
        ]
    first = 0
    while first < index and sum(cell_len(name) + 2 for name in names[first : index + 2]) + 3 > width:
        first += 1
    pieces: list[Piece] = [("  … " if first else "   ", "$ink-muted")]
    for number, name in enumerate(names[first:], start=first):
        here = number == min(index, len(columns))
        if here or number < len(columns):
            pieces += [(("▾" if here else " ") + name + " ", "bold $ink-accent" if here else "$ink-muted")]
    return line(*pieces)


def sides(
    tests: Sequence[ClubTest],
    shots: Mapping[str, Sequence[Shot]],
    text: Mapping[str, str],
    columns: Sequence[str],
    units: Units,
    marked_id: str,
) -> list[Side]:
    """The tests side by side, each with its mark of the picture."""
    pictured = pick_tests(tests, marked_id)
    return [
        side_of(
            each,
            shots.get(each.id, ()),
            mark_of(each, pictured),
            text[each.id],
            columns,
            units,
            each.id == marked_id,
            name_test(each, tests),
        )
        for each in tests
    ]


def hide(sides: Sequence[Side], tests: Sequence[ClubTest], hidden: Set[str], codes: Mapping[str, str]) -> list[Side]:
    """The sides without hidden tests' numbers; blind ones by code alone."""
    pairs = list(zip(sides, tests, strict=True))
    # their usual order would tell blind ones
    pairs.sort(key=lambda pair: codes.get(pair[1].id, "") if pair[1].id in hidden else "")
    return [_hide(side, codes.get(test.id, "")) if test.id in hidden else side for side, test in pairs]


def _hide(side: Side, code: str) -> Side:
    verdict = "–" if code else side.numbers[-1]  # a candidate's is open, a reference has none: that would tell them
    numbers = [side.numbers[0], *("hidden" for _ in side.numbers[1:-1]), verdict]
    named = side._replace(shape="", title=f"club {code}", text="blind", is_whole=False) if code else side
    return named._replace(numbers=numbers)


def hidden_row(number: int, shot: Shot, columns: Sequence[str]) -> Row:
    """One shot of a hidden test: that it was hit, and no more."""
    return Row(shot.id or str(number), [(str(number), "muted"), *(("·", "muted") for _ in columns), ("hit", "muted")])
