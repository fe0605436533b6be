import io
import sys

import pytest

from gaugerod import __version__
from gaugerod.cli import main as commands
from gaugerod.cli.main import main


def test_the_command_line_runs(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "argv", ["gaugerod", "--version"])
    with pytest.raises(SystemExit) as caught:
        main()
    assert caught.value.code == 0
    assert capsys.readouterr().out == f"gaugerod {__version__}\n"


def test_a_terminal_that_lacks_a_sign_gets_another(monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    monkeypatch.setattr(sys, "argv", ["gaugerod", "plan", "none.toml"])
    monkeypatch.setattr(sys, "stderr", terminal)
    with pytest.raises(SystemExit) as caught:
        main()
    assert caught.value.code == 2
    assert terminal.errors == "replace"


def test_a_demo_that_may_not_be_cut_ends_with_one(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(commands, "plan_and_tell", lambda *_, **__: False)
    monkeypatch.setattr(sys, "argv", ["gaugerod", "demo"])
    with pytest.raises(SystemExit) as caught:
        main()
    assert caught.value.code == 1
    assert capsys.readouterr().err == ""
