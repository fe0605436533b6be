"""What always holds of patch maps and shims: texts apart and on the sheet, depths rounded once."""

from collections import Counter
from collections.abc import Iterator
from typing import Any, TypeAlias

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checkers.letters import faults
from tests.property.alcoves import Alcove, alcoves, share, surveyed
from tests.property.plans import SHOWN
from tests.property.test_drawing_laws import read, rounded

from gaugerod.core.base.lengths import Display
from gaugerod.core.job.document import Job
from gaugerod.core.job.tolerances import fixing_of
from gaugerod.core.sheet.drawing import Text
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.flatness import WallFlatness, flatness_of
from gaugerod.core.survey.walls import Walls
from gaugerod.packet.survey import flatness_drawings
from gaugerod.store.shelf import Library

Raw: TypeAlias = dict[str, Any]

LIMITS = Library().tolerances()


@st.composite
def depths(draw: st.DrawFn) -> list[Raw]:
    """Depths over the middle of a back wall, to one surface, on a grid that is drawn by lot."""
    surface = draw(st.sampled_from(["backer", "stud"]))
    xs = draw(st.lists(st.integers(120, 1280), min_size=2, max_size=6, unique=True))
    ys = draw(st.lists(st.integers(-600, 1100), min_size=2, max_size=6, unique=True))
    return [
        {
            "kind": "depth",
            "surface": surface,
            "at": x,
            "height": y,
            "reads": draw(st.integers(-9, 9)),
        }
        for x in sorted(xs)
        for y in sorted(ys)
    ]


def judged(alcove: Alcove, found: list[Raw], display: Display) -> tuple[Walls, WallFlatness]:
    raw = surveyed(alcove)
    raw["wall"][1]["readings"] += found
    job = Job.model_validate(raw, context={"unit": raw["unit"]})
    walls = fit_walls(job)
    flat = flatness_of(
        job.wall[1],
        walls.walls[1],
        longest_edge=max(alcove.system.face),
        limits=LIMITS,
        survey=job.survey,
        fixing=fixing_of(alcove.system),
        display=display,
    )
    return walls, flat


def told(flat: WallFlatness, display: Display) -> Iterator[Counter[object]]:
    """How deep, or how thick, at each place of each drawing in its turn."""
    for surface in flat.surfaces:
        for patch in surface.patches:
            yield Counter(rounded(spot.flush, display) for spot in patch.spots)
    if flat.shims:
        yield Counter(rounded(shim.thickness, display) for shim in flat.shims.shims)


@pytest.mark.parametrize("unit", list(SHOWN))
@share(5)
@given(alcove=alcoves(), found=depths())
def test_depths_stand_apart_each_rounded_once(alcove: Alcove, found: list[Raw], unit: str) -> None:
    words = SHOWN[unit]
    walls, flat = judged(alcove, found, words.display)
    drawings = flatness_drawings(walls, [flat], words)
    for drawing, depth in zip(drawings, told(flat, words.display), strict=True):
        assert faults(drawing) == []
        texts = [item.text for item in drawing.items if isinstance(item, Text)]
        notes = [text for text in texts if not text[0].isdigit()]
        assert len(notes) == 1
        assert Counter(read(text) for text in texts if text not in notes) == depth
