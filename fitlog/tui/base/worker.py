"""The worker: one thread that does the slow work in order, so that the screen never waits for files or git.

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


class Worker:
    """The worker's desk is its own. ``typist`` is the desk of the app's thread: shots are on disk at once."""

    def __init__(self, make_desk: "Callable[[], Desk]", post: Callable[[Message], Any]) -> None:
        self._make_desk = make_desk
        self._typist: Desk | None = None
        self.typing = threading.Lock()
        self._post = post
        self._queue: queue.PriorityQueue[tuple[int, int, Task | None]] = queue.PriorityQueue()
        self._count = itertools.count()
        self._latest: dict[str, int] = {}
        self.open = 0
        self._errands: list[threading.Thread] = []
        self._thread = threading.Thread(target=self._run, name="worker", daemon=True)
        self._thread.start()

    @property
    def typist(self) -> "Desk":
        """The desk of the app's own thread."""
        if self._typist is None:
            self._typist = self._make_desk()
        return self._typist

    def ask(
        self,
        work: Work,
        then: Then | None = None,
        on_error: OnError | None = None,
        group: str = "",
        urgency: int = ASKED,
    ) -> None:
        """Have ``work`` done with the worker's desk; ``then`` gets its result in the app's own thread."""
        number = next(self._count)
        if group:
            self._latest[group] = number
        self.open += 1
        self._queue.put((urgency, number, Task(work, then, on_error, group, number)))

    def send(self, work: Work, then: Then | None = None, on_error: OnError | None = None) -> None:
        """Have ``work`` done in a thread and with a desk of its own: what may take long keeps nobody else waiting."""
        self.open += 1
        task = Task(work, then, on_error, "", next(self._count))
        errand = threading.Thread(target=self._errand, args=(task,), name="errand", daemon=True)
        self._errands = [*(each for each in self._errands if each.is_alive()), errand]
        errand.start()

    def _errand(self, task: Task) -> None:
        result, error = None, None
        try:
            with self._make_desk() as desk:
                result = task.work(desk)
        except Exception as caught:
            error = caught
        self._post(Answer(task, result, error))

    def is_stale(self, task: Task) -> bool:
        """Whether a later question of its group made this one idle."""
        return bool(task.group) and self._latest.get(task.group) != task.number

    def done(self) -> None:
        """An answer was taken in."""
        self.open -= 1

    def _run(self) -> None:
        desk: Desk | None = None
        while True:
            _, _, task = self._queue.get()
            if task is None:
                if desk is not None:
                    desk.close()
                return
            result, error = None, None
            if not self.is_stale(task):
                try:
                    desk = desk or self._make_desk()
                    result = task.work(desk)
                except Exception as caught:
                    error = caught
            self._post(Answer(task, result, error))

    def close(self) -> None:
        """Finish what was asked for, then let go."""
        self._queue.put((ASKED, next(self._count), None))
        self._thread.join(timeout=35)
        for errand in self._errands:  # one cut short leaves all whole, so nobody waits long for it
            errand.join(timeout=ERRAND_S)
        with self.typing:
            if self._typist is not None:
                self._typist.close()
