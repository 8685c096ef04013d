"""calc: the options and keys of each tool, and known values through the shell."""

from pathlib import Path

import pytest

from tests.cli.conftest import Run

CLUB = ["--head", "200@44.5", "--shaft", "60@22.5:44", "--grip", "50@4:10.5", "--at", "4@43.5"]
# the worked clubs and cases of the same numbers in tests/published/, sources and tags there
CASES = [
    (["swing-weight", *CLUB], {"mass_g": 314, "balance_in": 33.8344, "points": 33.535, "moi_butt_kg_cm2": 2870.53}),
    (["swing-weight", "--weight", "314", "--balance", "33.8344"], {"moment_in_oz": 219.686, "points": 33.535}),
    (["cut", "--raw", "46", "--length", "45.5", "--tip-trim", "0.5", "--bore-to-ground", "1.75", "--cap", "0.125"],
     {"cut_in": 43.625, "butt_trim_in": 1.875}),
    (["lie", "--loft", "34", "--error", "2", "--carry", "160"], {"face_deg": -1.348, "loft_left_deg": 33.976}),
    (["frequency", "--ei", "55", "--length", "40", "--shaft", "52", "--head", "205"], {"cpm": 256.96}),
    (["air", "--temperature", "20", "--pressure", "101325", "--humidity", "50"], {"density_kg_m3": 1.19931}),
    (["air", "--temperature", "20", "--pressure", "1013.25", "--humidity", "50"], {"density_kg_m3": 1.19931}),
]  # fmt: skip


@pytest.mark.parametrize(("argv", "known"), CASES)
def test_known_values_come_through(argv: list[str], known: dict[str, float], anywhere: Run) -> None:
    ran = anywhere("calc", *argv, "--json")
    assert (ran.status, ran.err) == (0, "")
    for key, value in known.items():
        assert ran.json[key] == pytest.approx(value, rel=5e-4)
    text = anywhere("calc", *argv)
    assert text.status == 0
    assert text.out.strip()


def test_swing_weight_says_letter_and_what_moves_it(anywhere: Run) -> None:
    document = anywhere("calc", "swing-weight", *CLUB, "--target", "D2", "--json").json
    assert (document["swing_weight"], document["customary"]) == ("D3.5", "D4")
    assert document["sensitivities"][0]["what"] == "head"
    to = document["to_target"]
    assert to["head_mass_g"] == pytest.approx(200 + to["head_weight_g"])
    reached = [f"{to['head_mass_g']}@44.5", "60@22.5", "50@4", "4@43.5"]
    again = anywhere("calc", "swing-weight", "--json", *(part for each in reached for part in ("--at", each)))
    assert again.json["points"] == pytest.approx(32)
    text = anywhere("calc", "swing-weight", *CLUB, "--target", "D2").out
    assert "swing weight  D3.5" in text
    assert "rule: 2 g = 1 point" in text
    assert "to D2: -2.5 g at the head, or " in text


# total g, balance in, points above A0, kg·cm²: worked by hand and recomputed, as in tests/published/
WORKED = [
    (["--grip", "50@4:10.5", "--at", "4@43.5", "--shaft", "60@22.5:44", "--head", "200@44.5"],
     (314, 33.8344, 33.535, 2870.53), "D3.5"),
    (["--head", "256@37.2", "--shaft", "120@18:36.75", "--grip", "50@4:10.5", "--at", "4@36"],
     (430, 27.9702, 29.084, 2665.10), "C9.1"),
    (["--at", "3@33.5", "--head", "200@34.6", "--head", "150@34.6", "--shaft", "115@16.5:33.5", "--grip",
      "65@4.2:10.5"], (533, 26.9812, 47.463, 3007.61), "E7.5"),
]  # fmt: skip


@pytest.mark.parametrize(("argv", "known", "name"), WORKED)
def test_lists_of_masses_in_any_order_and_number(
    argv: list[str], known: tuple[float, ...], name: str, anywhere: Run
) -> None:
    found = anywhere("calc", "swing-weight", *argv, "--json").json
    keys = ("mass_g", "balance_in", "points", "moi_butt_kg_cm2")
    assert [found[key] for key in keys] == pytest.approx(known, rel=2e-5)
    assert found["swing_weight"] == name
    whole = ["--weight", str(found["mass_g"]), "--balance", str(found["balance_in"])]
    again = anywhere("calc", "swing-weight", *whole, "--json").json
    assert (again["swing_weight"], again["moi_butt_kg_cm2"]) == (name, None)
    assert again["points"] == pytest.approx(found["points"])
    assert again["moment_in_oz"] == pytest.approx(found["moment_in_oz"])


def test_what_the_numbers_mean_is_in_the_help(anywhere: Run) -> None:
    said = {
        name: " ".join(anywhere("calc", name, "--help").out.split()) for name in ("swing-weight", "lie", "sleeve")
    }
    assert "A0 is 161.0 in·oz" in said["swing-weight"]
    assert "to the nearest whole point, halves up" in said["swing-weight"]
    assert "a right-hander's club that lies toe up points left" in said["lie"]
    assert "open +, closed −" in said["sleeve"]
    assert "nearest whole point" in anywhere("calc", "swing-weight", *CLUB).out


# ½ in a club from a 1-iron at 0, wedge ¼ more than the 9-iron: one blank maker's sheet (seen)
def test_the_cuts_of_a_set(anywhere: Run) -> None:
    clubs = ["4i@38.5", "5i@38", "7i@37", "9i@36", "pw@35.75"]
    argv = ["calc", "cut", "--set", *clubs, "--raw", "41", "--tip-trim", "1.5", "--bore-to-ground", "1"]
    found = anywhere(*argv, "--parallel", "6", "--json").json["clubs"]
    assert [each["tip_trim_in"] for each in found] == [1.5, 2.0, 3.0, 4.0, 4.25]
    assert [each["cut_in"] for each in found] == [37.375, 36.875, 35.875, 34.875, 34.625]
    assert (found[2]["butt_trim_in"], found[2]["parallel_left_in"]) == (2.125, 3.0)
    heads = anywhere(*argv, "--target", "D2", "--shaft-weight", "120", "--json").json["clubs"]
    assert {each["sums"]["swing_weight"] for each in heads} == {"D2.0"}
    masses = [each["head_mass_g"] for each in heads]
    assert masses == sorted(masses)
    assert "weight of the grip 50 g" in heads[0]["assumed"]
    text = anywhere(*argv, "--target", "D2", "--shaft-weight", "120").out
    assert "HEAD FOR D2" in text
    assert "assumed: " in text
    taper = anywhere("calc", "cut", "--set", "4i@38.5:39", "7i@37:37.5", "--tip", "taper", "--bore-to-ground", "1")
    assert taper.out.count("0.000") == 2


@pytest.mark.parametrize(
    ("argv", "status", "said"),
    [
        (["4i"], 2, "'4i' is not a club with its length"),
        (["4i@x"], 2, "'4i@x' is not a club with its length"),
        (["4i@38:41:120:7"], 2, "is not a club with its length"),
        (["3w@43"], 2, "'3w' is not an iron or a wedge"),
        (["4i@38.5", "4i@38"], 2, "'4i' is named twice"),
        (["4i@nan"], 1, "4i, length: nan is not a number"),
        (["4i@38.5:38"], 1, "4i, butt trim: the blank is 0.875 in too short"),
        (["4i@38.5", "9i@36", "--parallel", "5"], 1, "9i, tip trim: 4 in off a parallel section of 5 in"),
        (["4i@38.5", "--target", "D2"], 2, "a head's weight needs the blank's"),
        (["4i@38.5", "--target", "Z2", "--shaft-weight", "120"], 2, "'Z2' is not a swing weight"),
        (["4i@38.5", "--target", "D2", "--shaft-weight", "-3"], 1, "4i, weight of the shaft: -3 g is out of range"),
        (["4i@38.5", "--length", "38"], 2, "one club or a set, not both"),
    ],
)
def test_sets_that_cannot_be_cut(argv: list[str], status: int, said: str, anywhere: Run) -> None:
    ran = anywhere(
        "calc", "cut", "--raw", "41", "--tip-trim", "1.5", "--bore-to-ground", "1", "--json", "--set", *argv
    )
    assert (ran.status, ran.json["status"]) == (status, status)
    assert said in ran.err


@pytest.mark.parametrize(
    ("argv", "status", "said"),
    [
        (["swing-weight"], 2, "there is nothing to weigh"),
        (["swing-weight", "--head", "200"], 2, "'200' is not a weight at a place"),
        (["swing-weight", "--head", "-2@44"], 1, "head, weight: -2 g is out of range"),
        (["swing-weight", "--head", "nan@44"], 1, "nan is not a number"),
        (["swing-weight", "--head", "200@200"], 1, "200 in is out of range"),
        (["swing-weight", "--weight", "314"], 2, "--weight and --balance go together, without other weights"),
        (["swing-weight", *CLUB, "--target", "H2"], 2, "'H2' is not a swing weight"),
        (["cut", "--raw", "41", "--length", "45.5", "--tip-trim", "0.5", "--bore-to-ground", "1.75"], 1,
         "the blank is 3.125 in too short"),
        (["cut", "--raw", "41"], 2, "the following arguments are required: --bore-to-ground"),
        (["cut", "--raw", "41", "--bore-to-ground", "1"], 2, "the following arguments are required: --length"),
        (["cut", "--raw", "200", "--length", "45", "--bore-to-ground", "1.75"], 1, "raw length: 200 in is out"),
        (["cut", "--raw", "46", "--length", "45", "--bore-to-ground", "nan"], 1, "nan is not a number"),
        (["cut", "--raw", "46", "--length", "45", "--tip-trim", "-1", "--bore-to-ground", "1.75"], 1, "-1 in is out"),
        (["swing-weight", "--weight", "314", "--balance", "-5"], 1, "balance point: -5 in is out of range"),
        (["swing-weight", "--head", "200@-5"], 1, "balance point: -5 in is out of range"),
        (["swing-weight", "--head", "200@44:"], 2, "'200@44:' is not a weight at a place"),
        (["swing-weight", "--weight", "-314", "--balance", "33"], 1, "weight: -314 g is out of range"),
        (["swing-weight", "--weight", "314", "--balance", "inf"], 1, "inf is not a number"),
        (["frequency", "--ei", "-55", "--length", "40", "--shaft", "52", "--head", "205"], 1, "EI: -55 N·m² is out"),
        (["frequency", "--ei", "55", "--length", "40", "--shaft", "0", "--head", "205"], 1, "shaft weight: 0 g"),
        (["frequency", "--ei", "55", "--length", "200", "--shaft", "52", "--head", "205"], 1, "200 in is out"),
        (["match", "--head", "196@44.5", "--to-swing-weight", "D2", "--weight-at", "nan"], 1, "nan is not a number"),
        (["lie", "--loft", "34", "--error", "2", "--carry", "far"], 2, "invalid float value: 'far'"),
        (["lie", "--loft", "34", "--error", "-inf", "--carry", "160"], 1, "-inf is not a number"),
        (["lie", "--loft", "34", "--error", "2", "--carry", "-1e3"], 1, "-1000 yd is out of range"),
        (["lie", "--loft", "34", "--error", "inf", "--carry", "160"], 1, "inf is not a number"),
        (["frequency", "--length", "40", "--shaft", "52", "--head", "205"], 2, "the stiffness is not clear"),
        (["sleeve", "--loft", "10", "--lie", "58", "--bend", "9"], 1, "9° is out of range"),
        (["flight", "--ball-speed", "400", "--launch", "12", "--spin", "2600"], 1, "outside 1 to 250 mph"),
        (["flight", "--ball-speed", "150", "--launch", "12", "--spin", "2600", "--wind", "calm"], 2, "is not a wind"),
        (["flight", "--ball-speed", "150", "--launch", "12", "--spin", "2600", "--wind", "10"], 2, "where it comes"),
        (["flight", "--ball-speed", "150", "--launch", "89", "--spin", "2600"], 1, "to 85 deg; give degrees above"),
        (["flight", "--ball-speed", "150", "--launch", "12", "--spin", "2600", "--model", "mine"], 2, "mine"),
        (["air", "--temperature", "20", "--pressure", "1300"], 1, "1300 hPa is outside"),
        (["air", "--temperature", "20", "--pressure", "101325", "--altitude", "9"], 2, "needs no altitude"),
    ],
)  # fmt: skip
def test_numbers_out_of_sense_are_refused(argv: list[str], status: int, said: str, anywhere: Run) -> None:
    ran = anywhere("calc", *argv, "--json")
    assert (ran.status, ran.json["status"]) == (status, status)
    assert ran.err.startswith("error: ")
    assert said in ran.err


def test_match_by_each_way(anywhere: Run) -> None:
    club = ["--head", "196@44.5", "--shaft", "60@22.5", "--grip", "50@4"]
    goal = [part for each in ("200@44.5", "60@22.5", "50@4", "8@0.5") for part in ("--to", each)]
    both = anywhere("calc", "match", *club, *goal, "--by", "both", "--json").json
    assert [each["mass_g"] for each in both["weights"]] == pytest.approx([4, 8])
    assert both["points_off"] == pytest.approx(0, abs=1e-9)
    one = anywhere("calc", "match", *club, *goal, "--json").json
    assert one["points_off"] == pytest.approx(0, abs=1e-9)
    assert one["moi_off_kg_cm2"] != 0
    for way in ("moi", "compromise"):
        assert anywhere("calc", "match", *club, *goal, "--by", way).out.startswith("add ")
    lettered = anywhere("calc", "match", *club, "--to-swing-weight", "D2", "--json").json
    assert (lettered["swing_weight"], lettered["moi_off_kg_cm2"]) == ("D2.0", None)
    assert anywhere("calc", "match", *club, "--to-swing-weight", "D2", "--by", "moi").status == 2
    assert anywhere("calc", "match", *club).status == 2
    assert anywhere("calc", "match", "--to-swing-weight", "D2").status == 2


def test_sleeve_positions(anywhere: Run) -> None:
    argv = ["calc", "sleeve", "--loft", "10.5", "--lie", "58", "--bend", "1"]
    (at,) = anywhere(*argv, "--turn", "90", "--json").json["positions"]
    assert at["held"]["closed_deg"] == pytest.approx(-0.529, abs=1e-3)
    assert {at[way]["convention"] for way in ("held", "squared", "soled")} == {"held", "squared", "soled"}
    assert len(anywhere(*argv, "--json").json["positions"]) == 8
    assert "this position also" in anywhere(*argv, "--positions", "4").out
    assert anywhere(*argv, "--positions", "4", "--turn", "90").status == 2
    assert anywhere(*argv, "--positions", "0").status == 1


def test_frequency_from_a_reading_and_changed(anywhere: Run) -> None:
    shaft = ["--length", "40", "--shaft", "52", "--head", "205"]
    found = anywhere(
        "calc", "frequency", "--reading", "256.96", *shaft, "--length-by", "-1", "--ratio", "1", "--json"
    ).json
    assert found["ei_nm2"] == pytest.approx(55, abs=0.01)
    assert found["changed_cpm"] - found["cpm"] == pytest.approx(10.14, abs=0.01)


# EI 80 to 20 N·m², 60 g, 46 in raw cut to 44, 5 in clamped: +6.46 cpm for 2 in of tip (derived, computed apart)
def test_frequency_after_more_tip_trim(anywhere: Run) -> None:
    shaft = ["--reading", "270.21", "--length", "39", "--shaft", "50.87", "--head", "205", "--raw", "46"]
    found = anywhere("calc", "frequency", *shaft, "--tip-by", "2", "--json").json
    assert found["changed_cpm"] - found["cpm"] == pytest.approx(276.67 - 270.21, abs=0.05)
    assert anywhere("calc", "frequency", *shaft, "--tip-by", "3", "--json").status == 1


def test_flight_in_the_air_of_a_day(anywhere: Run) -> None:
    launch = ["calc", "flight", "--ball-speed", "150", "--launch", "12", "--spin", "2600"]
    calm = anywhere(*launch, "--json").json
    assert set(calm) == {"carry_yd", "peak_height_yd", "descent_deg", "time_s", "offline_yd", "model"}
    assert calm["offline_yd"] == 0
    right = anywhere(*launch, "--axis", "5", "--direction", "1", "--json").json
    assert right["offline_yd"] > calm["offline_yd"]
    against, helped = (anywhere(*launch, "--wind", wind, "--json").json for wind in ("10@0", "10@180"))
    assert against["carry_yd"] < calm["carry_yd"] < helped["carry_yd"]
    high = anywhere(*launch, "--altitude", "1500", "--temperature", "25", "--humidity", "40", "--json")
    assert high.json["carry_yd"] > calm["carry_yd"]
    said = anywhere(*launch, "--pressure", "1013.25", "--altitude", "1500", "--json")
    assert said.json == calm
    assert said.err.startswith("note: the pressure given is the air's own")
    assert anywhere(*launch, "--pressure", "101325", "--json").json == calm  # pascals are understood too
    assert anywhere(*launch, "--pressure", "20000").status == 1


@pytest.fixture
def table(tmp_path: Path) -> str:
    """A table of two columns and a group."""
    path = tmp_path / "table.csv"
    rows = ["236,228,a", "240,231,a", "233,230,b", "238,227,b", ",229,b"]
    path.write_text("test,reference,group\n" + "\n".join(rows) + "\n")
    return str(path)


def test_stats_of_a_column_and_of_two(table: str, anywhere: Run) -> None:
    one = anywhere("calc", "stats", table, "--column", "reference", "--json").json
    assert one["groups"]["reference"]["n"] == 5
    assert one["groups"]["reference"]["mean"] == pytest.approx(229)
    assert "difference" not in one
    two = anywhere("calc", "stats", table, "--column", "test", "--column", "reference", "--json").json
    assert (two["groups"]["test"]["n"], two["difference"]["of"], two["difference"]["minus"]) == (
        4,
        "test",
        "reference",
    )
    assert two["difference"]["estimate"] == pytest.approx(236.75 - 229)
    assert two["difference"]["low"] < two["difference"]["estimate"] < two["difference"]["high"]
    assert set(two["anova"]) == {"f", "df1", "df2", "p"}
    text = anywhere("calc", "stats", table, "--column", "1", "--column", "2").out
    assert "1 − 2: 7.75, 95 % interval " in text


def test_stats_by_group(table: str, anywhere: Run, tmp_path: Path) -> None:
    found = anywhere("calc", "stats", table, "--column", "test", "--by", "group", "--json").json
    assert {name: each["n"] for name, each in found["groups"].items()} == {"a": 2, "b": 2}
    more = tmp_path / "more.tsv"
    more.write_text("g\ty\n" + "".join(f"{g}\t{y}\n" for g, y in zip("aabbcc", (1, 2, 4, 5, 9, 11), strict=True)))
    three = anywhere("calc", "stats", str(more), "--column", "y", "--by", "g", "--json").json
    assert set(three["against_first"]) == {"b", "c"}
    assert three["against_first"]["c"]["p_holm"] >= three["against_first"]["c"]["p"]


def test_stats_row_by_row(anywhere: Run, tmp_path: Path) -> None:
    """Two columns of the same people: the sleep data of Student 1908, R manual [m]: paired t −4.0621, df 9."""
    first, second = (
        (0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2),
        (1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4),
    )
    path = tmp_path / "sleep.csv"
    path.write_text("one;two\n" + "".join(f"{a};{b}\n" for a, b in zip(first, second, strict=True)) + "3;\n")
    found = anywhere("calc", "stats", str(path), "--column", "one", "--column", "two", "--json").json
    assert (found["paired"]["n"], found["paired"]["df"]) == (10, 9)
    assert round(found["paired"]["t"], 4) == -4.0621
    assert round(found["paired"]["p"], 6) == 0.002833
    assert found["groups"]["one"]["n"] == 11
    said = anywhere("calc", "stats", str(path), "--column", "1", "--column", "2").out
    assert "row by row (10 rows): 1 − 2: -1.58," in said


def test_stats_of_two_columns_by_group(anywhere: Run, tmp_path: Path) -> None:
    """Both together are a landing pattern: Hotelling's T², and an ellipse for each group."""
    left, right = [(-4, 228), (-2, 231), (-5, 226), (-1, 233)], [(4, 229), (2, 231), (5, 224), (1, 233)]
    rows = [f"{x},{y},{name}" for name, side in (("left", left), ("right", right)) for x, y in side]
    path = tmp_path / "landing.csv"
    path.write_text("offline,carry,club\n" + "\n".join([*rows, "9,200,"]) + "\n")
    argv = ("calc", "stats", str(path), "--column", "offline", "--column", "carry", "--by", "club")
    found = anywhere(*argv, "--json").json
    assert found["columns"]["carry"]["difference"]["estimate"] == pytest.approx(0.25)
    assert found["pattern"]["shift"] == pytest.approx([-6, 0.25])
    assert set(found["ellipses"]) == {"left", "right"}
    ran = anywhere(*argv)
    assert "left − right, all columns at once: -6, 0.25 (T² " in ran.out
    assert "note: 1 row without club: left out" in ran.err


def test_stats_against_certified_values(anywhere: Run, tmp_path: Path) -> None:
    """NIST StRD, one-way analysis of variance, SiRstv [S]: the file that ships inside SciPy."""
    import scipy

    file = Path(scipy.__file__).parent / "stats/tests/data/nist_anova/SiRstv.dat"
    lines = file.read_text().splitlines()[60:]
    path = tmp_path / "sirstv.csv"
    path.write_text(
        "instrument,resistance\n" + "".join(",".join(line.split()) + "\n" for line in lines if line.strip())
    )
    anova = anywhere("calc", "stats", str(path), "--column", "resistance", "--by", "instrument", "--json").json[
        "anova"
    ]
    assert (anova["df1"], anova["df2"]) == (4, 20)
    assert anova["f"] == pytest.approx(1.18046237440255, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "argv", "status", "said"),
    [
        ("a,b\n1,2\n", ["--column", "c"], 2, "column 'c' is not in this table; its columns are a, b"),
        ("a,b\n1,2\n", ["--column", "a", "--column", "b"], 1, "'a' has one number, and a comparison needs two"),
        ("a,g\n1,x\n2,x\n3,y\n", ["--column", "a", "--by", "g"], 1, "'y' has one number"),
        ("", ["--column", "a"], 1, "this is not a table"),
        ("a;b\n1,500;2\n", ["--column", "a"], 1, ":2: a: '1,500' is not a finite number; write a decimal point"),
        ("a\n" + "1.25\n" * 2_100_000, ["--column", "a"], 1, "at most 5 MB; take fewer rows"),
        ("a,b\n1,x\n", ["--column", "b"], 1, ":2: b: 'x' is not a finite number"),
        ("a,b\n1,nan\n", ["--column", "b"], 1, ":2: b: 'nan' is not a finite number"),
        ("a,b\n1,\n", ["--column", "b"], 1, "column 'b' holds no number"),
        ("a,b\n", ["--column", "b"], 1, "this is not a table"),
        ("a,b\n1,2\n", ["--column", "a", "--column", "b", "--by", "c"], 2, "column 'c' is not in this table"),
        ("a\n1\n2\n", ["--column", "a", "--confidence", "2"], 1, "a confidence of 2.0 is not between 0 and 1"),
    ],
)
def test_tables_that_cannot_be_read(
    text: str, argv: list[str], status: int, said: str, anywhere: Run, tmp_path: Path
) -> None:
    path = tmp_path / "odd.csv"
    path.write_text(text)
    ran = anywhere("calc", "stats", str(path), *argv)
    assert (ran.status, ran.out) == (status, "")
    assert said in ran.err
    assert anywhere("calc", "stats", str(tmp_path / "none.csv"), "--column", "a").status == 2
