"""A wall's faults at a glance: lean, bow and fall made larger, with how much each edge is out."""

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Edge, Point, Region, bounds_of
from gaugerod.core.base.messages import Length
from gaugerod.core.sheet.drawing import Area, Drawing, Item, Text, Turn
from gaugerod.core.sheet.lettering import extent
from gaugerod.core.sheet.pierced import pierced
from gaugerod.core.sheet.survey_drawing import true_lines
from gaugerod.core.sheet.survey_shape import shape_of_wall
from gaugerod.core.survey.walls import FittedWall

_OFF = 1.2
"""From an edge to the middle of its figure, in capitals. [1]"""


def draw_faults(wall: FittedWall, words: Catalogue, *, height: float) -> Drawing:
    """Draw a wall with its faults made larger.

    Parameters
    ----------
    wall
        The wall. [mm]
    words
        How lengths are shown.
    height
        Height of capitals, > 0. [mm]

    Returns
    -------
    Drawing
        The outline with lean, bow and fall times a factor, over plumb and level lines; beside
        each edge how far it is truly out of plumb or level, from end to end.

    Notes
    -----
    Source: own design, after how setters sketch a wall.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.sheet.sample import sample_wall
    >>> words = Catalogue(display=METRIC, sentences={"sheet.wall": "Wall {name}"})
    >>> drawing = draw_faults(sample_wall(), words, height=60.0)
    >>> [item.text for item in drawing.items if isinstance(item, Text)]
    ['0 mm', '0 mm', '4 mm', '0 mm']
    """
    shape = shape_of_wall(wall)
    around = bounds_of((shape.outline,))
    middle = ((around.left + around.right) / 2, (around.bottom + around.top) / 2)
    off = _OFF * height
    figures: tuple[tuple[float, Point, Turn], ...] = (
        (_lean(wall.left, wall), (around.left - off, middle[1]), 90),
        (_lean(wall.right, wall), (around.right + off, middle[1]), 90),
        (_spread(wall.deck), (middle[0], around.bottom - off), 0),
        (_spread(wall.ceiling), (middle[0], around.top + off), 0),
    )
    items: tuple[Item, ...] = (
        *true_lines(shape, around),
        Area(layer="outline", region=Region(rings=(shape.outline,))),
        *(item for item in pierced(shape.wall, height=height) if not isinstance(item, Text)),
        *(_figure(out, at, turn, words, height) for out, at, turn in figures),
    )
    return Drawing(
        name=f"faults-{wall.name}",
        title=words.text("sheet.wall", name=wall.name),
        bounds=extent(items, margin=height / 4),
        items=items,
    )


def _lean(edge: Edge, wall: FittedWall) -> float:
    """How far an edge departs from one plumb line between deck and ceiling. [mm]."""
    heights = [y for line in (wall.deck, wall.ceiling) for _, y in (line[0], line[-1])]
    along = [edge.at(y) for y in (*heights, *(y for y, _ in edge.bow))]
    return max(along) - min(along)


def _spread(line: tuple[Point, ...]) -> float:
    """From the lowest to the highest point of a deck or a ceiling. [mm]."""
    heights = [y for _, y in line]
    return max(heights) - min(heights)


def _figure(out: float, at: Point, turn: Turn, words: Catalogue, height: float) -> Text:
    text = words.show(Length(out))
    return Text(layer="dimension", at=at, text=text, height=height, anchor="middle", turn=turn)
