"""Files read for the index: by two processes as by one, and by one where the other is gone."""

import os
import subprocess
import sys
from collections import deque
from pathlib import Path

import pytest

from fitlog.views.search import reading
from fitlog.views.search.reading import FileRead, Job, read_file, read_files

SESSION = 'date = 2026-04-18\n\n[[test]]\nid = "b4t"\nslot = "3w"\nsetup.head.model = "Alder {number}"\n'


@pytest.fixture
def files(tmp_path: Path) -> list[Job]:
    folder = tmp_path / "players/mo/sessions"
    folder.mkdir(parents=True)
    for number in range(60):
        path = folder / f"2026-04-{number:02}.toml"
        path.write_text(SESSION.format(number=number) if number != 7 else "broken = = 1")
    names = [f"players/mo/sessions/{path.name}" for path in sorted(folder.iterdir())]
    return [Job(name) for name in [*names, "players/mo/sessions/gone.toml"]]


def settled(found: list[tuple[str, FileRead]]) -> list[tuple[str, str, object]]:
    return [(name, read.blob, read.rows) for name, read in found]


@pytest.fixture
def by_one(tmp_path: Path, files: list[Job]) -> list[tuple[str, str, object]]:
    return settled([(job.name, read_file(str(tmp_path), job)) for job in files])


@pytest.fixture
def few_are_many(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reading, "_WORTH_A_PROCESS", 10)
    monkeypatch.setattr(reading, "_BATCH", 25)
    monkeypatch.setattr(os, "cpu_count", lambda: 2)


@pytest.mark.usefixtures("few_are_many")
def test_two_processes_read_what_one_reads(tmp_path: Path, files: list[Job], by_one: list[object]) -> None:
    assert sorted(settled(list(read_files(str(tmp_path), files))), key=repr) == sorted(by_one, key=repr)


@pytest.mark.usefixtures("few_are_many")
def test_the_second_process_alone_reads_what_one_reads(
    tmp_path: Path, files: list[Job], by_one: list[object]
) -> None:
    reader = reading.SecondReader(str(tmp_path), deque(files))
    reader.run()
    reader.end()
    answers = [reader.answers.get_nowait() for _ in range(reader.answers.qsize())]
    assert [len(each.jobs) for each in answers] == [25, 25, 11, 0]
    assert all(each.data for each in answers[:3])
    assert answers[3].is_last
    found = [(job.name, read) for each in answers for job, read in zip(each.jobs, each.read("nowhere"), strict=True)]
    assert settled(found) == by_one


@pytest.mark.usefixtures("few_are_many")
@pytest.mark.parametrize("python", ["", "no-such-program", "true"])
def test_where_the_second_process_is_not_to_be_had_one_reads_all(
    tmp_path: Path, files: list[Job], by_one: list[object], monkeypatch: pytest.MonkeyPatch, python: str
) -> None:
    monkeypatch.setattr(sys, "executable", python)
    assert sorted(settled(list(read_files(str(tmp_path), files))), key=repr) == sorted(by_one, key=repr)


@pytest.mark.usefixtures("few_are_many")
def test_whoever_stops_half_way_leaves_no_process(
    tmp_path: Path, files: list[Job], monkeypatch: pytest.MonkeyPatch
) -> None:
    started = []
    real = subprocess.Popen

    def noted(*args: object, **more: object) -> object:
        started.append(real(*args, **more))  # type: ignore[call-overload]
        return started[-1]

    monkeypatch.setattr(subprocess, "Popen", noted)
    found = read_files(str(tmp_path), files)
    next(found)
    found.close()
    assert [process.returncode is not None for process in started] == [True]


def test_a_file_whose_content_is_known_is_not_parsed_again(
    tmp_path: Path, files: list[Job], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reading, "_SETTLED_S", 0.0)
    first = read_file(str(tmp_path), files[0])
    assert first.rows is not None
    assert read_file(str(tmp_path), files[0]._replace(known_blob=first.blob)) == first._replace(rows=None)
