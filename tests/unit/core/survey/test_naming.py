"""Names of readings: the fit, the closures and the papers speak of the same ones."""

from typing import Any

from gaugerod.core.job.document import Job, Wall
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.naming import named


def wall(*readings: dict[str, Any]) -> dict[str, Any]:
    return {
        "name": "B",
        "opening": [{"name": "window", "kind": "window"}],
        "readings": list(readings),
    }


def edge(name: str, start: str, reads: float) -> dict[str, Any]:
    return {"kind": "opening", "of": "window", "edge": name, "from": start, "reads": reads}


MIXED = wall(
    {"kind": "deck", "at": 40, "reads": 500, "part": "ledge"},
    {"kind": "deck", "at": 0, "reads": 700},
    {"kind": "width", "at": 0, "reads": 1500},
    {"kind": "width", "at": 900, "reads": 1500, "id": "at the sill"},
    {"kind": "width", "at": 1200, "reads": 1500},
    edge("jamb depth", "itself", 90),
    edge("left", "left", 400),
    edge("right", "right", 500),
    edge("sill", "datum", 200),
    edge("head", "datum", 700),
    {"kind": "deck", "at": 60, "reads": 450, "part": "platform"},
    {"kind": "deck", "at": 1500, "reads": 700},
    {"kind": "ceiling", "at": 0, "reads": 1400},
    {"kind": "gap", "at": 700, "height": 0, "straightedge": 1800, "held": "plumb", "reads": 2},
)
NAMES = [
    "B ledge 1",
    "B deck 1",
    "B width 1",
    "at the sill",
    "B width 3",
    "B jamb depth 1",
    "B opening 1",
    "B opening 2",
    "B opening 3",
    "B opening 4",
    "B platform 1",
    "B deck 2",
    "B ceiling 1",
    "B gap 1",
]


def test_kinds_are_counted_apart_and_own_names_kept() -> None:
    assert [name for name, _ in named(Wall.model_validate(MIXED))] == NAMES


def test_the_fit_names_its_readings_alike() -> None:
    job = Job.model_validate(
        {
            "format": 1,
            "name": "Test",
            "unit": "mm",
            "survey": {"surface": "backer"},
            "choices": {"material": "any"},
            "calendar": {"start": "2026-03-02"},
            "wall": [MIXED],
        }
    )
    fitted = [reading.id for reading in fit_walls(job).readings]
    assert fitted == [name for name in NAMES if name != "B gap 1"]
