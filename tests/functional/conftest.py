"""The command line as a person uses it, in this process or as one of its own."""

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from gaugerod.cli.main import build

Run = Callable[..., Result]
Start = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture(scope="session")
def run() -> Run:
    """`run("plan", path)`: the command in this process."""
    cli = build()

    def command(*words: object) -> Result:
        return CliRunner().invoke(cli, [str(word) for word in words])

    return command


@pytest.fixture(scope="session")
def start() -> Start:
    """`start("plan", path)`: the command as a process of its own."""

    def command(*words: object, cwd: Path | None = None) -> "subprocess.CompletedProcess[str]":
        return subprocess.run(
            [sys.executable, "-m", "gaugerod", *map(str, words)],
            check=False,
            capture_output=True,
            encoding="utf-8",
            cwd=cwd,
            timeout=120,
        )

    return command
