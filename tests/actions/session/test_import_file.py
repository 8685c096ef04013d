"""Shot files in: what came, what did not and why; the file kept; the same file noticed."""

from pathlib import Path

import pytest

from fitlog.actions.session import import_file, setup
from fitlog.records.errors import Refusal, UsageError
from fitlog.saving.desk import Desk
from fitlog.views.history import timeline
from fitlog.views.session.shot_file import change_map, look_into, propose_map
from fitlog.workspace.layout import source_file

DATA = Path(__file__).parents[2] / "intake" / "data"


def guessed(desk: Desk, file: str) -> str:
    proposed = propose_map(str(DATA / file), (DATA / file).read_bytes()).importer
    name = file.partition(".")[0]
    import_file.save_importer(desk, name, proposed)
    return name


def test_a_file_comes_in_and_its_bad_row_is_named(desk: Desk) -> None:
    importer = guessed(desk, "bay-4.csv")
    where = setup.start_test(desk, "mo", "3w").ref
    got = import_file.import_shots(desk, "mo", where, look_into(desk, str(DATA / "bay-4.csv"), importer))
    assert (got.shots, len(got.unreadable)) == (11, 1)
    assert got.unreadable[0].startswith("line 16, column 2")
    _, _, test = desk.workspace.pick_test("mo", where)
    assert len(test.shots) == 11
    assert test.sources[0].name == "bay-4.csv"
    assert Path(desk.root, source_file("mo", got.source)).read_bytes() == (DATA / "bay-4.csv").read_bytes()
    assert desk.history.changed_files() == []
    assert timeline.timeline(desk, "mo")[0].entry.subject == "3w candidate: 11 shots from bay-4.csv"


def test_the_same_file_twice_is_noticed(desk: Desk) -> None:
    importer = guessed(desk, "grass-tee.tsv")
    where = setup.start_test(desk, "mo", "driver").ref
    path = str(DATA / "grass-tee.tsv")
    import_file.import_shots(desk, "mo", where, look_into(desk, path, importer))
    with pytest.raises(Refusal, match=f"this file was imported before, into {where}"):
        import_file.import_shots(desk, "mo", where, look_into(desk, path, importer))
    import_file.import_shots(desk, "mo", where, look_into(desk, path, importer), again=True)
    assert len(desk.workspace.pick_test("mo", where)[2].shots) == 20


def test_latin_1_bytes_are_kept_to_the_letter(desk: Desk) -> None:
    importer = guessed(desk, "grass-tee.tsv")
    where = setup.start_test(desk, "mo", "driver").ref
    got = import_file.import_shots(desk, "mo", where, look_into(desk, str(DATA / "grass-tee.tsv"), importer))
    data = (DATA / "grass-tee.tsv").read_bytes()
    assert desk.history.bytes_at("HEAD", source_file("mo", got.source)) == data


def test_a_file_of_two_setups_asks_which(desk: Desk) -> None:
    importer = guessed(desk, "two-clubs-metric.csv")
    where = setup.start_test(desk, "mo", "3w").ref
    path = str(DATA / "two-clubs-metric.csv")
    with pytest.raises(Refusal, match="holds 2 setups: Probe A, Probe B; import one at a time"):
        import_file.import_shots(desk, "mo", where, look_into(desk, path, importer))
    assert import_file.import_shots(desk, "mo", where, look_into(desk, path, importer), group="Probe A").shots == 9
    other = setup.start_test(desk, "mo", "3w", values={"length_in": 42.5}).ref
    assert import_file.import_shots(desk, "mo", other, look_into(desk, path, importer), group="Probe B").shots == 8
    with pytest.raises(UsageError, match="no setup 'Probe C'; it has Probe A, Probe B"):
        import_file.import_shots(desk, "mo", where, look_into(desk, path, importer), group="Probe C")


def test_a_file_that_is_not_there_is_said(desk: Desk) -> None:
    importer = guessed(desk, "bay-4.csv")
    where = setup.start_test(desk, "mo", "3w").ref
    with pytest.raises(UsageError, match=r"nowhere\.csv: cannot be read: No such file"):
        import_file.import_shots(desk, "mo", where, look_into(desk, "nowhere.csv", importer))
    with pytest.raises(UsageError, match="there is no importer 'none'; known here: bay-4"):
        import_file.import_shots(desk, "mo", where, look_into(desk, str(DATA / "bay-4.csv"), "none"))


def test_metres_taken_for_yards_are_pointed_out_with_the_model_and_change_nothing(desk: Desk, tmp_path: Path) -> None:
    """Launches of good players, men's tour averages; the carries in yards as printed [S], and the same in metres."""
    rows = [(120, 16.3, 7097, 172), (127, 14.1, 6231, 183), (137, 11.0, 4836, 203), (115, 18.1, 7998, 160)] * 2
    odd = {}
    for unit, share in (("yd", 1.0), ("m", 0.9144)):
        path = tmp_path / f"{unit}.csv"
        lines = [f"{speed},{launch},{spin},{carry * share:.1f}" for speed, launch, spin, carry in rows]
        path.write_text("Ball Speed (mph),Launch Angle (deg),Spin (rpm),Carry (yd)\n" + "\n".join(lines) + "\n")
        proposed = propose_map(str(path), path.read_bytes()).importer
        import_file.save_importer(desk, unit, proposed)
        where = setup.start_test(desk, "mo", "7i").ref
        got = import_file.import_shots(desk, "mo", where, look_into(desk, str(path), unit))
        odd[unit] = got.odd
        shots = desk.workspace.pick_test("mo", where)[2].shots
        assert [shot.carry_yd for shot in shots] == [round(carry * share, 1) for *_, carry in rows]
        assert {shot.peak_height_yd for shot in shots} == {None}  # what is computed is never written down as measured
    assert odd["yd"] == ()
    assert len(odd["m"]) == 1
    assert "below what a flight computed by the flight model bearman-harvey-2001 gives; it may" in odd["m"][0]


def test_a_new_map_is_kept_with_the_import_and_not_where_that_is_refused(desk: Desk, tmp_path: Path) -> None:
    path = tmp_path / "bay.csv"
    path.write_text("Club,Carry (yd)\n" + "7 Iron,152\n" * 3)
    where = setup.start_test(desk, "mo", "3w").ref
    file = look_into(desk, str(path))
    with pytest.raises(Refusal, match="the file calls these shots '7 Iron', and the test is of 3w"):
        import_file.import_shots(desk, "mo", where, file)
    assert desk.workspace.importers() == []
    before = desk.history.git.tip()
    import_file.import_shots(desk, "mo", where, file, other_club=True)
    assert desk.workspace.importers() == ["bay"]
    assert desk.history.git.tip() != before
    changed = change_map(look_into(desk, str(path)), desk.workspace.importer("bay")._replace(name="The bay"))
    import_file.import_shots(desk, "mo", where, changed, again=True, other_club=True)
    assert desk.workspace.importer("bay").name == "The bay"
