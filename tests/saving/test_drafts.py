"""What is typed and not saved yet."""

import os

from fitlog.saving.drafts import keep, read


def test_what_was_kept_last_is_read_for_its_purpose_alone(tmp_path: os.PathLike[str]) -> None:
    root = str(tmp_path)
    keep(root, "verdict mo 3w", "too lo")
    keep(root, "verdict mo 3w", "too low")
    keep(root, "verdict mo 7i", "")
    assert read(root, "verdict mo 3w") == "too low"
    assert read(root, "verdict mo 7i") == ""


def test_purposes_that_look_alike_as_file_names_stay_apart(tmp_path: os.PathLike[str]) -> None:
    root = str(tmp_path)
    keep(root, "a/b", "one")
    keep(root, "a-b", "other")
    keep(root, "Ђорђе", "third")
    assert [read(root, purpose) for purpose in ("a/b", "a-b", "Ђорђе")] == ["one", "other", "third"]


def test_an_empty_text_drops_it_and_any_text_comes_back(tmp_path: os.PathLike[str]) -> None:
    root = str(tmp_path)
    odd = "line\nend \u202e \udc80"
    keep(root, "note", odd)
    assert read(root, "note") == odd
    keep(root, "note", "")
    assert read(root, "note") == ""


def test_a_place_that_cannot_be_written_stops_nobody(tmp_path: os.PathLike[str]) -> None:
    root = os.path.join(tmp_path, "file")
    with open(root, "w"):
        pass
    keep(root, "note", "text")
    assert read(root, "note") == ""
