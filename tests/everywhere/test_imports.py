"""No file imports another that imports it, on whatever way, not even at need or for types alone."""

from graphlib import CycleError, TopologicalSorter

import grimp
import pytest


def imports() -> dict[str, set[str]]:
    graph = grimp.build_graph("fitlog", cache_dir=None)
    return {module: set(graph.find_modules_directly_imported_by(module)) for module in graph.modules}


def test_there_are_no_circles() -> None:
    found = imports()
    assert "fitlog.workspace.parse" in found["fitlog.workspace.store"]
    TopologicalSorter(found).prepare()


def test_a_circle_would_be_seen() -> None:
    found = imports()
    found["fitlog.workspace.parse"].add("fitlog.workspace.store")
    with pytest.raises(CycleError):
        TopologicalSorter(found).prepare()
