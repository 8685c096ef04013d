"""The test of fitlog/a/b.py stands in tests/a/test_b.py."""

from pathlib import Path

TESTS = Path(__file__).parents[1]
ROOMS = TESTS.parent / "fitlog"
# whole jobs, checks against sources, what holds in all rooms, ratios, and the README's pictures
ELSEWHERE = {"journeys", "published", "everywhere", "benchmarks", "pictures"}
ALL_SCREENS = {"tui/test_pictures.py"}


def stands_for_module(test: str) -> bool:
    """Whether a test file's name, from tests/ on, is that of a module, or of a room's own ``__init__``."""
    folder, module = Path(test).parent, Path(test).stem.removeprefix("test_")
    return (ROOMS / folder / f"{module}.py").is_file() or (folder.name == module and (ROOMS / folder).is_dir())


def test_every_test_file_names_a_module() -> None:
    files = [path.relative_to(TESTS) for path in TESTS.rglob("test_*.py")]
    named = [path.as_posix() for path in files if path.parts[0] not in ELSEWHERE]
    assert len(named) > 300
    assert [test for test in named if test not in ALL_SCREENS and not stands_for_module(test)] == []


def test_a_file_that_names_none_is_found() -> None:
    assert stands_for_module("bench/test_club.py")
    assert stands_for_module("demo/test_demo.py")
    assert not stands_for_module("bench/test_clubs.py")
    assert not stands_for_module("test_club.py")
