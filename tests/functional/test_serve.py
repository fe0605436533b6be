"""The pages as a process of their own: its address is printed, this computer is answered."""

import re
import signal
import subprocess
import sys
from pathlib import Path

import httpx2
import pytest
from tests.functional.conftest import Run

from gaugerod.app.ports import OutputError
from gaugerod.cli.serving import listening


def test_it_serves_pages_at_the_address_it_prints(tmp_path: Path) -> None:
    command = [sys.executable, "-u", "-m", "gaugerod", "serve", "--port", "0"]
    with subprocess.Popen(
        [*command, "--book", str(tmp_path / "jobs")], stdout=subprocess.PIPE, encoding="utf-8"
    ) as serving:
        try:
            assert serving.stdout is not None
            said = serving.stdout.readline()
            found = re.search(r"http://127\.0\.0\.1:\d+/", said)
            assert found is not None, said
            answer = httpx2.get(found[0], timeout=60)
            assert answer.status_code == 200
            assert "server" not in answer.headers
            assert "<h1>Jobs</h1>" in answer.text
            assert httpx2.get(found[0], headers={"Host": "elsewhere"}).status_code == 421
        finally:
            serving.send_signal(signal.SIGINT)
            serving.wait(timeout=60)
    assert (tmp_path / "jobs" / "jobs.sqlite").is_file()


def test_a_port_that_another_has_is_told(run: Run) -> None:
    door = listening(0)
    try:
        door.listen()
        port = door.getsockname()[1]
        with pytest.raises(OutputError):
            listening(port)
        result = run("serve", "--port", port)
    finally:
        door.close()
    assert result.exit_code == 2
    assert f"Port {port}" in result.stderr
