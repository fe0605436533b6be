"""The real pages: `gaugerod serve` as a process of its own, and browsers that speak to it."""

import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import httpx2
from tests.web_pages import Element, filled, read_page

WAIT = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Serving:
    """A running server: its process, and the address that it printed."""

    process: "subprocess.Popen[str]"
    address: str
    said: str

    def kill(self) -> None:
        """End it as `kill -9` does, in the middle of whatever it does."""
        self.process.kill()

    def interrupt(self) -> int:
        """Press Ctrl-C; return the code that it ends with."""
        self.process.send_signal(signal.SIGINT)
        return self.process.wait(timeout=WAIT)


@contextmanager
def serving(*words: object) -> Iterator[Serving]:
    """Run the pages on a port that is free; they are gone at the end, whatever happened."""
    command = [sys.executable, "-u", "-m", "gaugerod", "serve", "--port", "0", *map(str, words)]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, encoding="utf-8"
    ) as process:
        try:
            assert process.stdout is not None
            said = process.stdout.readline()
            found = re.search(r"http://127\.0\.0\.1:\d+", said)
            assert found is not None, said
            yield Serving(process=process, address=found[0], said=said)
        finally:
            process.kill()


def children_of(process: int) -> tuple[int, ...]:
    """The processes that a process started and that still run; Linux alone tells."""
    found = Path(f"/proc/{process}/task/{process}/children")
    tasks = found.parent.parent.glob("*/children") if found.is_file() else ()
    return tuple(int(word) for task in tasks for word in task.read_text().split())


def running(process: int) -> bool:
    """Whether a process is there; one that ended and was not asked how is not."""
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    state = Path(f"/proc/{process}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()[0]
    return state != "Z"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sent:
    """A form that is sent: where to, and what it says."""

    action: str
    values: Mapping[str, str]

    @property
    def key(self) -> str:
        return self.values["key"]


class Person:
    """Opens pages of a server and sends their forms; what a page is sent on to is not opened."""

    def __init__(self, address: str) -> None:
        self.address = address
        self.client = httpx2.Client(base_url=address, timeout=WAIT)

    def open(self, path: str) -> Element:
        answer = self.client.get(path)
        assert answer.status_code == 200, answer.text
        return read_page(answer.text)

    def fill(self, form: Element, fill: Mapping[str, str], press: str = "") -> Sent:
        """A form of a page, filled in; `press` is the button that sends it, by its value."""
        values = filled(form, fill)
        for button in form.all("button", value=press) if press else ():
            values[button.attributes["name"]] = press
        return Sent(action=form.attributes["action"], values=values)

    def send(self, sent: Sent) -> httpx2.Response:
        headers = {"Origin": self.address}
        return self.client.post(sent.action, data=dict(sent.values), headers=headers)

    def close(self) -> None:
        self.client.close()
