"""Typed shots that are not saved yet."""

from datetime import time
from pathlib import Path

from fitlog.saving.typed_shots import drop, keep, read_all

REF = "2026-04-18-q7k#b4t"


def test_they_wait_in_the_order_they_were_typed_and_read_back_whole(tmp_path: Path) -> None:
    root = str(tmp_path)
    shots = [{"id": f"k{n}", "at": time(10, n), "carry_yd": 230.0 + n, "note": "é"} for n in range(3)]
    kept = [keep(root, "mo", REF, shot, f"23{n}") for n, shot in enumerate(shots)]
    assert read_all(root) == kept
    assert [each.shot for each in read_all(root)] == shots
    drop(root, [kept[1].name])
    assert [each.text for each in read_all(root)] == ["230", "232"]


def test_what_is_no_shot_of_ours_is_passed_over(tmp_path: Path) -> None:
    root = str(tmp_path)
    kept = keep(root, "mo", REF, {"id": "k"}, "230")
    folder = (tmp_path / kept.name).parent
    for name, text in (("a.json", "{}"), ("b.json", "not json"), ("c.json", '{"shot": 5}'), ("d.txt", "x")):
        (folder / name).write_text(text)
    assert read_all(root) == [kept]
    assert read_all(str(tmp_path / "nowhere")) == []
