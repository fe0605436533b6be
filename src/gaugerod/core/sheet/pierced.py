"""What pierces or stands on a wall: openings, fixtures, holes, each with its name."""

from gaugerod.core.base.geometry import Box, Point
from gaugerod.core.sheet.drawing import Area, Circle, Item, Layer, Line, Text
from gaugerod.core.sheet.lettering import region_of
from gaugerod.core.survey.walls import FittedHole, FittedWall


def pierced(wall: FittedWall, *, height: float) -> tuple[Item, ...]:
    """Draw openings crossed, fixtures as outlines, holes with their centre lines.

    Parameters
    ----------
    wall
        The wall. [mm]
    height
        Height of the capitals of the names, > 0. [mm]

    Returns
    -------
    tuple of Item
        The items, names last.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_wall
    >>> [item.text for item in pierced(sample_wall(), height=30.0) if isinstance(item, Text)]
    ['niche', 'valve']
    """
    marks: list[Item] = []
    for opening in wall.openings:
        marks += _crossed(opening.box)
    marks += [Area(layer="fixture", region=region_of(fixture.box)) for fixture in wall.fixtures]
    for hole in wall.holes:
        marks += _centred(hole, height)
    return (*marks, *_names(wall, height))


def _crossed(box: Box) -> list[Item]:
    ends = ((box.bottom, box.top), (box.top, box.bottom))
    return [
        Area(layer="opening", region=region_of(box)),
        *(
            Line(layer="opening", start=(box.left, start), end=(box.right, end))
            for start, end in ends
        ),
    ]


def _centred(hole: FittedHole, height: float) -> list[Item]:
    x, y, reach = hole.x, hole.y, hole.diameter / 2 + height / 2
    return [
        Circle(layer="hole", centre=(x, y), diameter=hole.diameter),
        Line(layer="hole", start=(x - reach, y), end=(x + reach, y)),
        Line(layer="hole", start=(x, y - reach), end=(x, y + reach)),
    ]


def _names(wall: FittedWall, height: float) -> list[Text]:
    placed: list[tuple[Layer, str, Point]] = [
        *(("opening", opening.name, _middle(opening.box)) for opening in wall.openings),
        *(("fixture", fixture.name, _middle(fixture.box)) for fixture in wall.fixtures),
        *(
            ("hole", hole.name, (hole.x, hole.y + hole.diameter / 2 + 1.25 * height))
            for hole in wall.holes
        ),
    ]
    return [
        Text(layer=layer, at=at, text=name, height=height, anchor="middle", turn=0)
        for layer, name, at in placed
    ]


def _middle(box: Box) -> Point:
    return (box.left + box.right) / 2, (box.bottom + box.top) / 2
