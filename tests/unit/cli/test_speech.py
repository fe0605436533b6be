import pytest
import typer

from gaugerod.cli.speech import BAD_INPUT, INTERRUPTED, spoken
from gaugerod.core.base.errors import JobError
from gaugerod.core.base.lengths import IMPERIAL
from gaugerod.core.base.messages import Length, Message
from gaugerod.store.shelf import Library

WORDS = Library().words(IMPERIAL, currency="USD")


def test_what_a_person_can_mend_is_said_in_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    wrong = Message(
        "survey.opening-outside",
        wall="B",
        opening="win\ndow\x1b[31m",
        left=Length(25.4),
        right=Length(50.8),
    )
    with pytest.raises(typer.Exit) as caught, spoken(WORDS):
        raise JobError(wrong)
    out, err = capsys.readouterr()
    assert caught.value.exit_code == BAD_INPUT
    assert (out, err.count("\n")) == ("", 1)
    assert "win dow [31m" in err
    assert '1" to 2"' in err


def test_a_person_may_stop_a_command(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(typer.Exit) as caught, spoken(WORDS):
        raise KeyboardInterrupt
    assert caught.value.exit_code == INTERRUPTED
    assert capsys.readouterr().err == "Stopped. Nothing more was written.\n"


def test_a_fault_of_the_program_is_not_hidden() -> None:
    with pytest.raises(ZeroDivisionError), spoken(WORDS):
        raise ZeroDivisionError


def test_what_goes_well_goes_on(capsys: pytest.CaptureFixture[str]) -> None:
    with spoken(WORDS):
        pass
    assert capsys.readouterr() == ("", "")
