"""The worker: threads for slow work, so that the screen never waits.

What a person waits for goes before what is only nice to have. Of several questions in one group only the last
one's answer is delivered.
"""

import itertools
import queue
import threading
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple

from textual.message import Message

if TYPE_CHECKING:
    from fitlog.saving.desk import Desk

ASKED, LOOKING, IDLE = 0, 1, 2
ERRAND_S = 3.0
END_S = 35.0  # longer than a save waits for others
Work = Callable[["Desk"], Any]
Then = Callable[[Any], None]
OnError = Callable[[Exception], None]


class Answer(Message):
    """The worker has done something; the app runs ``then`` with the result."""

    def __init__(self, task: "Task", result: Any, error: Exception | None) -> None:
        self.task, self.result, self.error = task, result, error
        super().__init__()


class Task(NamedTuple):
    """One thing to do."""

    work: Work
    then: Then | None
    on_error: OnError | None
    group: str
    number: int


class _Lane:
    """A thread with a desk of its own that does tasks in order."""

    def __init__(self, name: str, worker: "Worker") -> None:
        self._worker = worker
        self._queue: queue.PriorityQueue[tuple[int, int, Task | None]] = queue.PriorityQueue()
        self._thread = threading.Thread(target=self._run, name=name, daemon=True)
        self._thread.start()

    def put(self, urgency: int, number: int, task: "Task | None") -> None:
        """Have a task done, after those more urgent or earlier; none ends the thread."""
        self._queue.put((urgency, number, task))

    def join(self, timeout_s: float) -> None:
        """Wait for the thread to end."""
        self._thread.join(timeout_s)

    def _run(self) -> None:
        desk: Desk | None = None
        while (task := self._queue.get()[2]) is not None:
            result, error = None, None
            if not self._worker.is_stale(task):
                try:
                    desk = desk or self._worker.make_desk()
                    result = task.work(desk)
                except Exception as caught:
                    error = caught
            self._worker.post(Answer(task, result, error))
        if desk is not None:
            desk.close()


class Worker:
    """Reads in one thread, saves in another, so that no save blocks reading.

    ``desk`` is that of the app's own thread, for what is read at once.
    """

    def __init__(self, make_desk: "Callable[[], Desk]", post: Callable[[Message], Any]) -> None:
        self.make_desk, self.post = make_desk, post
        self._desk: Desk | None = None
        self._count = itertools.count()
        self._latest: dict[str, int] = {}
        self.open = 0
        self._reader, self._saver = _Lane("reader", self), _Lane("saver", self)
        self._errands: list[threading.Thread] = []

    @property
    def desk(self) -> "Desk":
        """The desk of the app's own thread."""
        if self._desk is None:
            self._desk = self.make_desk()
        return self._desk

    def ask(
        self,
        work: Work,
        then: Then | None = None,
        on_error: OnError | None = None,
        group: str = "",
        urgency: int = LOOKING,
    ) -> None:
        """Have something read; ``then`` gets its result in the app's own thread."""
        number = next(self._count)
        if group:
            self._latest[group] = number
        self.open += 1
        self._reader.put(urgency, number, Task(work, then, on_error, group, number))

    def save(self, work: Work, then: Then | None = None, on_error: OnError | None = None) -> None:
        """Have something saved, after what was to be saved before."""
        number = next(self._count)
        self.open += 1
        self._saver.put(ASKED, number, Task(work, then, on_error, "", number))

    def send(self, work: Work, then: Then | None = None, on_error: OnError | None = None) -> None:
        """Have long ``work`` done in a thread and with a desk of its own."""
        self.open += 1
        task = Task(work, then, on_error, "", next(self._count))
        errand = threading.Thread(target=self._run_errand, args=(task,), name="errand", daemon=True)
        self._errands = [*(each for each in self._errands if each.is_alive()), errand]
        errand.start()

    def _run_errand(self, task: Task) -> None:
        result, error = None, None
        try:
            with self.make_desk() as desk:
                result = task.work(desk)
        except Exception as caught:
            error = caught
        self.post(Answer(task, result, error))

    def is_stale(self, task: Task) -> bool:
        """Whether a later question of its group made this one idle."""
        return bool(task.group) and self._latest.get(task.group) != task.number

    def count_answer(self) -> None:
        """Count an answer that was taken in."""
        self.open -= 1

    def close(self) -> None:
        """Finish what was asked for, then let go."""
        for lane in (self._reader, self._saver):
            lane.put(ASKED if lane is self._reader else IDLE, next(self._count), None)
        self._reader.join(END_S)
        self._saver.join(END_S)
        for errand in self._errands:  # one cut short leaves all whole, so nobody waits long for it
            errand.join(timeout=ERRAND_S)
        if self._desk is not None:
            self._desk.close()
