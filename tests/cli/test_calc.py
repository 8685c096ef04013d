"""calc: the options and keys of each tool, and known values through the shell."""

from pathlib import Path

import pytest

from tests.cli.conftest import Run

CLUB = ["--head", "200@44.5", "--shaft", "60@22.5:44", "--grip", "50@4:10.5", "--at", "4@43.5"]
# the worked clubs and cases of the same numbers in tests/published/, sources and tags there
CASES = [
    (["swing-weight", *CLUB], {"mass_g": 314, "balance_in": 33.8344, "points": 33.535, "moi_butt_kg_cm2": 2870.53}),
    (["swing-weight", "--mass", "314", "--balance", "33.8344"], {"moment_in_oz": 219.686, "points": 33.535}),
    (["cut", "--raw", "46", "--length", "45.5", "--tip-trim", "0.5", "--bore-to-ground", "1.75", "--cap", "0.125"],
     {"cut_in": 43.625, "butt_trim_in": 1.875}),
    (["lie", "--loft", "34", "--error", "2", "--carry", "160"], {"start_deg": -1.348, "loft_left_deg": 33.976}),
    (["frequency", "--ei", "55", "--length", "40", "--shaft", "52", "--head", "205"], {"cpm": 256.96}),
    (["air", "--temperature", "20", "--pressure", "101325", "--humidity", "50"], {"density_kg_m3": 1.19931}),
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


@pytest.mark.parametrize(
    ("argv", "status", "said"),
    [
        (["swing-weight"], 2, "there is nothing to weigh"),
        (["swing-weight", "--head", "200"], 2, "'200' is not a mass at a place"),
        (["swing-weight", "--head", "-2@44"], 1, "head, mass: -2 g is out of sense"),
        (["swing-weight", "--head", "nan@44"], 1, "nan is not a number"),
        (["swing-weight", "--head", "200@200"], 1, "200 in is out of sense"),
        (["swing-weight", "--mass", "314"], 2, "a whole club is its mass and its balance point"),
        (["swing-weight", *CLUB, "--target", "H2"], 2, "'H2' is not a swing weight"),
        (["cut", "--raw", "41", "--length", "45.5", "--tip-trim", "0.5", "--bore-to-ground", "1.75"], 1,
         "the blank is 3.125 in too short"),
        (["cut", "--raw", "41"], 2, "the following arguments are required: --length"),
        (["lie", "--loft", "34", "--error", "2", "--carry", "far"], 2, "invalid float value: 'far'"),
        (["lie", "--loft", "34", "--error", "-inf", "--carry", "160"], 1, "-inf is not a number"),
        (["lie", "--loft", "34", "--error", "2", "--carry", "-1e3"], 1, "-1000 yd is out of sense"),
        (["lie", "--loft", "34", "--error", "inf", "--carry", "160"], 1, "inf is not a number"),
        (["frequency", "--length", "40", "--shaft", "52", "--head", "205"], 2, "the stiffness is not clear"),
        (["sleeve", "--loft", "10", "--lie", "58", "--bend", "9"], 1, "9 ° is out of sense"),
        (["flight", "--ball-speed", "400", "--launch", "12", "--spin", "2600"], 1, "outside 1 to 250 mph"),
        (["flight", "--ball-speed", "150", "--launch", "12", "--spin", "2600", "--wind", "calm"], 2, "is not a wind"),
        (["flight", "--ball-speed", "150", "--launch", "12", "--spin", "2600", "--model", "mine"], 2, "mine"),
        (["air", "--temperature", "20", "--pressure", "1013"], 1, "1013 Pa is outside"),
        (["air", "--temperature", "20", "--pressure", "101325", "--altitude", "9"], 2, "needs no altitude"),
    ],
)  # fmt: skip
def test_numbers_out_of_sense_are_refused(argv: list[str], status: int, said: str, anywhere: Run) -> None:
    ran = anywhere("calc", *argv, "--json")
    assert (ran.status, ran.out) == (status, "")
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
    for way in ("inertia", "compromise"):
        assert anywhere("calc", "match", *club, *goal, "--by", way).out.startswith("add ")
    lettered = anywhere("calc", "match", *club, "--to-swing-weight", "D2", "--json").json
    assert (lettered["swing_weight"], lettered["moi_off_kg_cm2"]) == ("D2.0", None)
    assert anywhere("calc", "match", *club, "--to-swing-weight", "D2", "--by", "inertia").status == 2
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
    found = anywhere("calc", "frequency", "--reading", "256.96", *shaft, "--length-by", "-1", "--json").json
    assert found["ei_nm2"] == pytest.approx(55, abs=0.01)
    assert found["changed_cpm"] - found["cpm"] == pytest.approx(10.14, abs=0.01)


def test_flight_in_the_air_of_a_day(anywhere: Run) -> None:
    launch = ["calc", "flight", "--ball-speed", "150", "--launch", "12", "--spin", "2600"]
    calm = anywhere(*launch, "--json").json
    assert set(calm) == {"carry_yd", "apex_yd", "landing_deg", "time_s", "offline_yd"}
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
    assert anywhere(*launch, "--pressure", "101325").status == 1


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
    assert "1 − 2: 7.75, 0.95 sure of between " in text


def test_stats_by_group(table: str, anywhere: Run, tmp_path: Path) -> None:
    found = anywhere("calc", "stats", table, "--column", "test", "--by", "group", "--json").json
    assert {name: each["n"] for name, each in found["groups"].items()} == {"a": 2, "b": 2}
    more = tmp_path / "more.tsv"
    more.write_text("g\ty\n" + "".join(f"{g}\t{y}\n" for g, y in zip("aabbcc", (1, 2, 4, 5, 9, 11), strict=True)))
    three = anywhere("calc", "stats", str(more), "--column", "y", "--by", "g", "--json").json
    assert set(three["against_first"]) == {"b", "c"}
    assert three["against_first"]["c"]["p_holm"] >= three["against_first"]["c"]["p"]


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
        ("a,b\n1,x\n", ["--column", "b"], 1, ":2: b: 'x' is not a finite number"),
        ("a,b\n1,nan\n", ["--column", "b"], 1, ":2: b: 'nan' is not a finite number"),
        ("a,b\n1,\n", ["--column", "b"], 1, "column 'b' holds no number"),
        ("a,b\n", ["--column", "b"], 1, "this is no table"),
        ("a,b\n1,2\n", ["--column", "a", "--column", "b", "--by", "a"], 2, "leave out --by"),
        ("a\n1\n2\n", ["--column", "a", "--confidence", "2"], 1, "a confidence of 2.0 is none"),
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
