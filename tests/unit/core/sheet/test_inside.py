import pytest

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import bounds_of
from gaugerod.core.base.lengths import METRIC
from gaugerod.core.job.fields import InsideFace
from gaugerod.core.sheet.drawing import Area, Drawing
from gaugerod.core.sheet.inside import with_sketch
from gaugerod.core.sheet.piece import draw_piece
from gaugerod.core.sheet.sample import sample_pieces

PLAIN = draw_piece(sample_pieces()[0], (), Catalogue(display=METRIC, sentences={}))


def hatched(drawing: Drawing) -> tuple[float, float]:
    """Middle of the hatched face. [mm]."""
    (face,) = [i for i in drawing.items if isinstance(i, Area) and i.layer == "cut"]
    box = bounds_of(face.region.rings)
    return (box.left + box.right) / 2, (box.bottom + box.top) / 2


@pytest.mark.parametrize(
    ("face", "across", "up"),
    [("sill", 0, -1), ("head", 0, 1), ("left", -1, 0), ("right", 1, 0), ("back", 0, 0)],
)
def test_the_face_lies_on_its_side_of_the_sketch(face: InsideFace, across: int, up: int) -> None:
    drawing = with_sketch(PLAIN, face)
    x, y = hatched(drawing)
    middle_x, middle_y = hatched(with_sketch(PLAIN, "back"))

    def way(offset: float) -> int:
        return 0 if abs(offset) < 1e-6 else round(offset / abs(offset))

    assert (way(x - middle_x), way(y - middle_y)) == (across, up)


def test_the_drawing_below_is_left_as_it_was() -> None:
    both = with_sketch(PLAIN, "back")
    assert both.items[: len(PLAIN.items)] == PLAIN.items
    assert (both.bounds.left, both.bounds.right) == (PLAIN.bounds.left, PLAIN.bounds.right)
    assert hatched(both)[1] > PLAIN.bounds.top
