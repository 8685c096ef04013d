"""calc stats: summaries and comparisons of a plain table."""

from pathlib import Path

import pytest

from tests.cli.conftest import Run


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
    message = anywhere("calc", "stats", str(path), "--column", "1", "--column", "2").out
    assert "row by row (10 rows): 1 − 2: -1.58," in message


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
    ("text", "argv", "status", "message"),
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
    text: str, argv: list[str], status: int, message: str, anywhere: Run, tmp_path: Path
) -> None:
    path = tmp_path / "odd.csv"
    path.write_text(text)
    ran = anywhere("calc", "stats", str(path), *argv)
    assert (ran.status, ran.out) == (status, "")
    assert message in ran.err
    assert anywhere("calc", "stats", str(tmp_path / "none.csv"), "--column", "a").status == 2
