"""The bench: results that take long, made in processes of their own and kept for a while."""

from collections import OrderedDict, deque
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from hashlib import sha256
from threading import BoundedSemaphore, Condition, Event, Thread, Timer
from time import monotonic
from typing import Any, TypeAlias, TypeVar

from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Message
from gaugerod.web.bench.errors import EndedError, NotYetError
from gaugerod.web.bench.parcel import packed, raised, unpacked
from gaugerod.web.bench.worker import Process, Worker

T = TypeVar("T")
Outcome: TypeAlias = tuple[str, Any]
WORKERS = 2
"""Works that go on at once."""
PATIENCE = 5.0
"""How long a page waits for a result before it says that there is none yet, in seconds."""
MOST = 64
"""Results that are kept; the one that was asked for longest ago goes first."""
_WAITING = 8
"""Pages that wait at once; more are told at once, so that others find a thread to be shown by."""
_FORGOTTEN = 30.0
"""Work that nobody has asked about for so long, in seconds, is not begun any more."""


@dataclass(slots=True, kw_only=True, eq=False)
class _Task:
    """A piece of work. `done` is told with the lock held, and nothing changes after it."""

    key: Hashable
    ticket: str
    work: Callable[[], Any]
    asked: float
    began: float = 0.0
    worker: Worker | None = None
    why: Message | None = None
    outcome: Outcome = ("", None)
    done: Event = field(default_factory=Event)


class Bench:
    """Works that are done by several processes, each at most `within` seconds.

    The same work is done once, however many ask for it. What went wrong with it is kept as its
    result is; what was ended waits to be begun `again`. `too_long` is the key of what is said when
    it took longer.
    """

    def __init__(
        self,
        *,
        within: float,
        patience: float = PATIENCE,
        workers: int = WORKERS,
        too_long: str = "web.planning.too-long",
        start: Callable[[float], Worker] = Process,
    ) -> None:
        self.within = within
        self._patience = patience
        self._too_long = too_long
        self._start = start
        self._changed = Condition()
        self._tasks: OrderedDict[Hashable, _Task] = OrderedDict()
        self._queue: deque[_Task] = deque()
        self._waiting = BoundedSemaphore(_WAITING)
        self._closed = False
        self._threads = [Thread(target=self._serve, daemon=True) for _ in range(workers)]
        for thread in self._threads:
            thread.start()

    def get(self, key: Hashable, work: Callable[[], T]) -> T:
        """Return the result of a key; `work` makes it where it is not there yet.

        Raises
        ------
        NotYetError
            It is not done yet; ask again.
        EndedError
            It took too long, somebody stopped it, or its process died.
        GaugerodError
            Whatever the work raises.
        """
        task = self._asked(key, work)
        if not task.done.is_set() and self._waiting.acquire(blocking=False):
            try:
                task.done.wait(self._patience)
            finally:
                self._waiting.release()
        if not task.done.is_set():
            raise self._not_yet(task)
        result: T = self._told(task)
        return result

    def at_hand(self, key: Hashable) -> object:
        """Return the result of a key where there is one; nothing is worked out or waited for."""
        with self._changed:
            task = self._tasks.get(key)
            done = task is not None and task.done.is_set() and task.outcome[0] == "result"
            return task.outcome[1] if task and done else None

    def stop(self, ticket: str) -> None:
        """End a work that is not done yet, because somebody does not want it any more."""
        self._end(ticket, Message("web.planning.stopped"))

    def again(self, ticket: str) -> None:
        """Forget that a work was ended: asked for, it is begun again."""
        with self._changed:
            for task in [*self._tasks.values()]:
                if task.ticket == ticket and task.outcome[0] == "ended":
                    del self._tasks[task.key]

    def close(self) -> None:
        """End every work and every process, and wait until they are gone."""
        with self._changed:
            self._closed = True
            for task in self._tasks.values():
                self._give_up(task, Message("web.planning.closed"))
            self._changed.notify_all()
        for thread in self._threads:
            thread.join()

    def _asked(self, key: Hashable, work: Callable[[], Any]) -> _Task:
        with self._changed:
            task = self._tasks.get(key)
            if task is None:
                ticket = sha256(repr(key).encode()).hexdigest()[:24]
                task = _Task(key=key, ticket=ticket, work=work, asked=0.0)
                self._tasks[key] = task
                self._queue.append(task)
                self._changed.notify()
                if self._closed:
                    self._give_up(task, Message("web.planning.closed"))
            task.asked = monotonic()
            self._tasks.move_to_end(key)
            done = [one for one in self._tasks.values() if one.done.is_set()]
            for one in done[: max(0, len(self._tasks) - MOST)]:
                del self._tasks[one.key]
            return task

    def _not_yet(self, task: _Task) -> NotYetError:
        with self._changed:
            before = self._queue.index(task) + 1 if task in self._queue else 0
            seconds = monotonic() - task.began if task.worker else 0.0
        message = Message("web.planning.not-yet")
        return NotYetError(task.ticket, message, seconds=seconds, most=self.within, before=before)

    def _told(self, task: _Task) -> Any:  # noqa: ANN401  (whatever the work makes)
        how, what = task.outcome
        if how == "result":
            return what
        if how == "ended":
            raise EndedError(task.ticket, what)
        error = raised(*what)
        if not isinstance(error, GaugerodError):
            # A fault of the program and not of the job: the next who asks may have more luck.
            with self._changed:
                self._tasks.pop(task.key, None)
        raise error

    def _end(self, ticket: str, why: Message) -> None:
        with self._changed:
            for task in self._tasks.values():
                if task.ticket == ticket:
                    self._give_up(task, why)

    def _give_up(self, task: _Task, why: Message) -> None:
        """End a work; the lock is held."""
        if task.done.is_set():
            return
        task.why = why
        if task.worker:
            task.worker.kill()
        else:
            self._queue.remove(task)
            _finish(task, None)

    def _serve(self) -> None:
        worker = self._start(self.within)
        try:
            while (task := self._next(worker)) is not None:
                if not self._do(task, worker):
                    worker.close()
                    worker = self._start(self.within)
        finally:
            worker.close()

    def _do(self, task: _Task, worker: Worker) -> bool:
        """Do a work; return whether its worker can do another, and is wanted to."""
        too_long = Message(self._too_long, seconds=self.within)
        bell = Timer(self.within, self._end, (task.ticket, too_long))
        bell.daemon = True
        bell.start()
        outcome, alive = _done(task.work, worker)
        bell.cancel()
        with self._changed:
            _finish(task, outcome)
            return self._closed or (alive and task.why is None)

    def _next(self, worker: Worker) -> _Task | None:
        """Wait for the next work; None when there will be none."""
        with self._changed:
            while not self._closed:
                while self._queue:
                    task = self._queue.popleft()
                    if monotonic() - task.asked < _FORGOTTEN:
                        task.worker, task.began = worker, monotonic()
                        return task
                    del self._tasks[task.key]
                self._changed.wait()
        return None


def _done(work: Callable[[], Any], worker: Worker) -> tuple[Outcome | None, bool]:
    """Return what came of a work, none where it was ended, and whether the worker lives."""
    try:
        made = worker.do(packed(work))
        return (None, False) if made is None else (unpacked(made), True)
    except Exception as error:  # noqa: BLE001  (what does not go into bytes, or out of them)
        return ("error", (RuntimeError, (repr(error),), {})), True


def _finish(task: _Task, outcome: Outcome | None) -> None:
    """Keep what came of a work; the lock is held."""
    task.outcome = outcome or ("ended", task.why or Message("web.planning.died"))
    task.done.set()
