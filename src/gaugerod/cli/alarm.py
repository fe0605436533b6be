"""An end to work that takes too long: the same signal that Ctrl-C sends, by the clock."""

import _thread
import signal
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

        # In the background a shell may have told the program to ignore Ctrl-C, and so the bell.
        deaf = signal.getsignal(signal.SIGINT) is signal.SIG_IGN
        if deaf:
            signal.signal(signal.SIGINT, signal.default_int_handler)
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
            if deaf:
                signal.signal(signal.SIGINT, signal.SIG_IGN)
