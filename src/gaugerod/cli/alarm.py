"""An end to work that takes too long: the same signal that Ctrl-C sends, by the clock."""

import _thread
from collections.abc import Callable
from dataclasses import dataclass
from threading import Event, Timer
from typing import TypeVar

from gaugerod.app.ports import StoppedError
from gaugerod.core.base.messages import Message

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Alarm:
    """Stops work of the main thread after some seconds; None lets it run."""

    seconds: float | None = None

    def run(self, work: Callable[[], T]) -> T:
        """Return what `work` returns.

        Raises
        ------
        StoppedError
            The time ran out first.
        """
        if self.seconds is None:
            return work()
        rung = Event()

        def ring() -> None:
            rung.set()
            _thread.interrupt_main()

        timer = Timer(self.seconds, ring)
        timer.daemon = True
        timer.start()
        try:
            return work()
        except KeyboardInterrupt:
            if rung.is_set():
                raise StoppedError(Message("app.stopped", seconds=self.seconds)) from None
            raise
        finally:
            timer.cancel()
