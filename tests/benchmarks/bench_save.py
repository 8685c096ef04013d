"""How long a save takes beside git alone making the same change with the same care for the disk.

``python -m tests.benchmarks.bench_save`` prints medians of one run. The same workspace, the same file, the same
change in turns: through the actions, through ``git add`` and ``git commit --only``, and as a file written and synced.
"""

import argparse
import os
import subprocess
from itertools import count

from fitlog.history.message import Message
from fitlog.saving.desk import Desk
from fitlog.saving.save import saving
from fitlog.toml import expect_many
from fitlog.workspace.files import write_whole
from fitlog.workspace.layout import bag_file, session_file
from tests.benchmarks.timing import Call, medians, workspaces

_CARE = ("-c", "core.fsync=committed")
_CALM = ("-c", "gc.auto=0", "-c", "user.name=x", "-c", "user.email=x@localhost", "-c", "core.hooksPath=/dev/null")


class _Bench:
    """Ways to save one changed value of a bag, or one new session, in a workspace."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        # each way has a bag of its own: what fitlog keeps of a file is only good until another changes it
        self.ours, self.theirs = desk.workspace.players()[:2]
        sample = session_file(self.ours, desk.workspace.sessions(self.ours)[0])
        with open(self.path(sample), encoding="utf-8") as file:
            self.text = file.read()
        # as a test begins: what it is hit with, and no shot yet
        head, _, after = self.text.partition("shots = [")
        self.begun = head.rstrip() + after.partition("\n]")[2].partition("\n[[test]]")[0].rstrip() + "\n"
        self.number = count()

    def path(self, name: str) -> str:
        return os.path.join(self.desk.root, name)

    def length(self) -> float:
        return 40 + next(self.number) % 900 / 100

    def fresh(self) -> str:
        return session_file(self.ours, f"2031-01-01-b{os.urandom(5).hex()}")

    def git(self, name: str, data: bytes) -> None:
        with open(self.path(name), "wb") as file:
            file.write(data)
        for args in (("add", "--", name), ("commit", "-q", "--only", "-m", "x", "--", name)):
            subprocess.run(["git", *_CARE, *_CALM, *args], cwd=self.desk.root, check=True)

    def edited(self) -> bytes:
        with open(self.path(bag_file(self.theirs)), encoding="utf-8") as file:
            before, _, after = file.read().partition("length_in = ")
        return f"{before}length_in = {self.length():.2f}\n{after.partition(chr(10))[2]}".encode()

    def change(self) -> None:
        with saving(self.desk) as save:
            bag = save.open(bag_file(self.ours))
            bag.set(("club", 0, "length_in"), self.length())
            save.put_document(bag)
            save.commit(Message("driver: length changed", "bag-set", "a try", [self.ours], ["driver"]))

    def first_change(self) -> None:
        self.desk.documents.clear()
        self.change()

    def new(self, text: str) -> None:
        with saving(self.desk) as save:
            save.put(self.fresh(), text)
            save.commit(Message("3w candidate", "test", players=[self.ours], slots=["3w"]))

    def calls(self) -> dict[str, Call]:
        """Each way by name."""
        rev_parse = ("git", "rev-parse", "HEAD")
        return {
            "change: git alone": lambda: self.git(bag_file(self.theirs), self.edited()),
            "change: fitlog": self.change,
            "new session: git alone": lambda: self.git(self.fresh(), self.begun.encode()),
            "new session: fitlog": lambda: self.new(self.begun),
            "new file with its shots: git alone": lambda: self.git(self.fresh(), self.text.encode()),
            "new file with its shots: fitlog": lambda: self.new(self.text),
            "first change of a file: fitlog": self.first_change,
            "file written and synced": lambda: write_whole(self.desk.root, bag_file(self.theirs), self.edited()),
            "git rev-parse": lambda: subprocess.run(rev_parse, cwd=self.desk.root, check=True, capture_output=True),
        }


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--players", type=int, default=200)
    parser.add_argument("--sessions", type=int, default=100)
    parser.add_argument("--commits", type=int, default=20400)
    parser.add_argument("--rounds", type=int, default=25)
    args = parser.parse_args()
    expect_many()  # as the open app does
    with workspaces(args.players, args.sessions, args.commits) as roots:
        for size, root in zip(("small", "large"), roots, strict=True):
            with Desk(root) as desk:
                found = medians(_Bench(desk).calls(), args.rounds)
            print(f"\n{size}: {root}")
            for name, value in found.items():
                print(f"  {name:<36}{value:9.2f} ms")
            for what in ("change", "new session", "new file with its shots"):
                ratio = found[f"{what}: fitlog"] / found[f"{what}: git alone"]
                print(f"  {what}: fitlog / git alone = {ratio:.2f} (wanted: at most 1.25)")


if __name__ == "__main__":
    main()
