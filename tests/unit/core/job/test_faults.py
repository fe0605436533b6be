import pytest

from gaugerod.core.base.messages import Message
from gaugerod.core.job.faults import InconsistentError, Place, words_of

DATA = {
    "choices": {"finish": "line"},
    "wall": [
        {"name": "L", "readings": [{"kind": "width", "reads": 1}, {"reads": 2}, 7]},
        {"hole": [{"name": "valve"}], "name": 3, "kind": 4},
    ],
}


@pytest.mark.parametrize(
    ("at", "words"),
    [
        (("choices", "finish"), "choices, finish"),
        (("wall", 0, "readings", 0, "reads"), "wall L, readings 1 (width), reads"),
        (("wall", 0, "readings", 1), "wall L, readings 2"),
        (("wall", 0, "readings", 2), "wall L, readings 3"),
        (("wall", 1, "hole", 0, "diameter"), "wall 2, hole valve, diameter"),
        (("wall", 5, "hole"), "wall 6, hole"),
        (("nothing", "here"), "nothing, here"),
    ],
)
def test_a_place_is_named_in_the_keys_of_the_document(at: Place, words: str) -> None:
    assert words_of(DATA, at) == words


def test_the_error_leads_to_its_place() -> None:
    error = InconsistentError(Message("job.no-readings"), at=("wall", 0, "readings"))
    assert (error.message.key, error.at) == ("job.no-readings", ("wall", 0, "readings"))
