import signal
import time

import pytest

from gaugerod.app.ports import StoppedError
from gaugerod.cli.alarm import Alarm
from gaugerod.core.base.messages import Message


def sleep() -> str:
    for _ in range(200):
        time.sleep(0.05)
    return "slept"


def interrupt() -> str:
    raise KeyboardInterrupt


def test_without_a_time_work_runs_to_its_end() -> None:
    assert Alarm().run(lambda: 7) == 7


def test_work_that_is_done_in_time_is_done() -> None:
    assert Alarm(seconds=60).run(lambda: 7) == 7


def test_work_that_takes_too_long_is_stopped() -> None:
    with pytest.raises(StoppedError) as caught:
        Alarm(seconds=0.1).run(sleep)
    assert caught.value.message == Message("app.stopped", seconds=0.1)


def test_work_in_the_background_is_stopped_too() -> None:
    heard = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        with pytest.raises(StoppedError):
            Alarm(seconds=0.1).run(sleep)
        assert signal.getsignal(signal.SIGINT) is signal.SIG_IGN
    finally:
        signal.signal(signal.SIGINT, heard)


def test_a_person_who_stops_it_is_no_alarm() -> None:
    with pytest.raises(KeyboardInterrupt):
        Alarm(seconds=60).run(interrupt)
