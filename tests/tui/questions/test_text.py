"""How often predictions held, drawn and by group."""

from fitlog.tui.questions.text import _bar


def drawn(share: float, low: float, high: float, level: float) -> str:
    return "".join(str(piece[0]) for piece in _bar(share, low, high, level, 21))


def test_a_bar_ends_at_the_share_with_its_interval_and_its_target() -> None:
    bar = drawn(0.5, 0.25, 0.75, 0.9)
    assert len(bar) == 21
    assert bar.index("┃") == 18
    assert bar.count("━") == 11
    assert bar[11:16] == "─" * 5


def test_a_target_within_the_interval_is_inked_well_and_one_outside_is_not() -> None:
    inks = [next(piece[1] for piece in _bar(0.5, 0.25, high, 0.8, 21) if piece[0] == "┃") for high in (0.9, 0.7)]
    assert inks == ["bold $ink-good", "bold $ink-bad"]
