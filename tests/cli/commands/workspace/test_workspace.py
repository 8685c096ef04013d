"""init, check, edits, demo."""

from pathlib import Path

from fitlog.saving.desk import Desk
from tests.cli.conftest import Run


def test_init_makes_a_workspace(anywhere: Run, tmp_path: Path) -> None:
    root = tmp_path / "van"
    ran = anywhere("init", str(root), "--name", "Green van")
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.startswith(f"New workspace: Green van, in {root}\n")
    assert (root / "workspace.toml").is_file()
    assert (root / "schemas" / "bag.schema.json").is_file()
    again = anywhere("init", str(root))
    assert (again.status, again.out) == (1, "")
    assert again.err.startswith(f"error: {root}: this is a fitlog workspace already;")
    assert anywhere("init").status == 2


def test_init_json(anywhere: Run, tmp_path: Path) -> None:
    ran = anywhere("init", str(tmp_path / "van"), "--json")
    assert ran.json["workspace"] == str(tmp_path / "van")
    assert len(ran.json["commit"]) == 40


def test_check_finds_nothing_or_everything(desk: Desk, fitlog: Run) -> None:
    ran = fitlog("check")
    assert (ran.status, ran.out, ran.err) == (0, "3 files: all sound\n", "")
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_text(bag.read_text().replace("head.loft_deg = 16.0", "head.loft_dge = 16.0\nlie_deg = 5"))
    ran = fitlog("check")
    assert ran.status == 1
    assert "club.lie_deg: 5 is outside 40 to 85 degrees; write degrees such as 58.0" in ran.err
    assert ran.out.endswith("3 files: 1 broken\n")
    document = fitlog("check", "--json")
    assert document.status == 1
    assert document.err == ""
    (problem,) = document.json["problems"]
    assert (problem["file"], problem["key"]) == ("players/mo/bag.toml", "club.lie_deg")
    assert bag.read_text().splitlines()[problem["line"] - 1] == "lie_deg = 5"
    assert document.json["files"] == 3


def test_check_gives_a_hint_and_is_content(desk: Desk, fitlog: Run) -> None:
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_text(bag.read_text().replace("length_in = 45.25", "lenght_in = 45.25"))
    ran = fitlog("check")
    assert (ran.status, ran.err) == (0, "")
    assert "hint: players/mo/bag.toml:" in ran.out
    assert "perhaps length_in is meant" in ran.out


def test_edits_are_shown_and_committed_with_a_reason(desk: Desk, fitlog: Run) -> None:
    assert fitlog("edits").out == "Nothing was edited by hand.\n"
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_text(bag.read_text().replace("length_in = 45.25", "length_in = 45.0"))
    ran = fitlog("edits")
    assert ran.out.startswith("players/mo/bag.toml\n  driver: length 45.25 → 45 in\n")
    assert fitlog("edits", "--json").json == {
        "edits": [{"file": "players/mo/bag.toml", "what": "driver: length 45.25 → 45 in", "broken": False}]
    }
    done = fitlog("edits", "--reason", "cut at home")
    assert (done.status, done.err) == (0, "")
    assert done.out.startswith("Edit by hand: driver: length 45.25 → 45 in\n")
    assert "because: cut at home" in fitlog("history", "mo", "--limit", "1").out
    assert fitlog("edits", "--reason", "once more").status == 1


def test_check_remarks_on_an_uneven_ladder_and_finds_the_file_sound(fitlog: Run) -> None:
    for slot, loft in (("7i", 33), ("8i", 33.5)):
        assert fitlog("bag-set", "mo", slot, "--set", f"loft_deg={loft}", "--reason", "read").status == 0
    ran = fitlog("check")
    (remark,) = (line for line in ran.out.splitlines() if line.startswith("remark: "))
    sentence = "8i: loft 33.5° is 0.5° from the 7i's 33°: less than 1°"
    assert remark.startswith("remark: players/mo/bag.toml:")
    assert remark.endswith(sentence)
    assert sentence in fitlog("findings", "mo").out
    assert (ran.status, ran.out.splitlines()[-1].partition(": ")[2]) == (0, "all sound")
    (told,) = fitlog("check", "--json").json["remarks"]
    assert told["what"] == sentence


def test_check_points_at_a_reading_that_looks_odd_and_finds_the_file_sound(fitlog: Run) -> None:
    shots = ("--columns", "ball_speed_mph,carry_yd", "--shot", "150 232", "--shot", "246 240")
    assert fitlog("test", "mo", "3w", *shots).status == 0
    ran = fitlog("check")
    assert ran.status == 0
    (hint,) = (line for line in ran.out.splitlines() if "246" in line)
    assert "ball speed 246 mph is above 240 mph, more than any shot gives" in hint
    assert hint.startswith("hint: players/mo/sessions/")
    assert len(fitlog("check", "--json").json["hints"]) == 1


def test_check_never_calls_all_sound_what_contradicts_itself(desk: Desk, fitlog: Run) -> None:
    bag = Path(desk.root, "players/mo/bag.toml")
    bag.write_text(bag.read_text().replace("head.loft_deg = 16.0", "head.loft_deg = 16.0\nlenght_in = 42"))
    ran = fitlog("check")
    assert ran.status == 0
    assert "perhaps length_in is meant" in ran.out
    assert ran.out.endswith("3 files: none broken, 1 with something odd\n")
