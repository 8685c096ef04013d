"""specs: the grid printed, previewed and taken in."""

from pathlib import Path

from tests.cli.conftest import Run


def test_a_table_is_previewed_and_with_a_reason_taken_in(fitlog: Run, tmp_path: Path) -> None:
    file = tmp_path / "bag.csv"
    file.write_text("slot,head,loft,length\n3w,,,42.5\n9 iron,Plover,42,35.5\n", encoding="utf-8")
    assert fitlog("proven", "mo", "3w", "--reason", "trusted").status == 0
    ran = fitlog("specs", "mo", str(file))
    assert ran.status == 0
    assert "3w: length 43 → 42.5 in; standing proven → trial\n" in ran.out  # all that follows, before it is saved
    assert "9i: " in ran.out
    assert "Nothing was changed yet" in ran.out
    ran = fitlog("specs", "mo", str(file), "--reason", "as measured")
    assert (ran.status, ran.err.count("error")) == (0, 0)
    rows = {row["club"]: row for row in fitlog("specs", "mo", "--json").json["rows"]}
    assert (rows["3w"]["length_in"], rows["9i"]["head.model"], rows["9i"]["loft_deg"]) == (42.5, "Plover", 42)


def test_the_printed_csv_changes_nothing(fitlog: Run, tmp_path: Path) -> None:
    file = tmp_path / "out.csv"
    file.write_text(fitlog("specs", "mo", "--csv").out, encoding="utf-8")
    assert fitlog("specs", "mo", str(file)).out == "nothing would change\n"
