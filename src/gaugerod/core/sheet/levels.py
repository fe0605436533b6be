"""The gauge rod: every course line with its height from the datum."""

from dataclasses import dataclass

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.base.messages import Length
from gaugerod.core.setout.layout import Layout, top_of
from gaugerod.core.sheet.drawing import Item, Layer, Line, Text
from gaugerod.core.sheet.lettering import spread
from gaugerod.core.survey.walls import FittedWall


@dataclass(frozen=True, slots=True, kw_only=True)
class CourseLine:
    """The top edge of a course, from the datum, up positive. [mm]."""

    course: int
    height: float


def course_lines(layout: Layout) -> tuple[CourseLine, ...]:
    """Return the level lines that every wall shares, from the first course upwards.

    Parameters
    ----------
    layout
        The set-out; its pitch is positive. [mm]

    Returns
    -------
    tuple of CourseLine
        Exact heights: whoever prints them rounds each once, from the datum. A last course
        that is cut below its own line has none. [mm]

    Notes
    -----
    Line ``n`` is ``first_course + (n - 1) * pitch``, the true pitch: adding rounded pitches
    would carry their error up the wall. Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_layout
    >>> [(line.course, line.height) for line in course_lines(sample_layout())]
    [(1, 40.0), (2, 340.0), (3, 640.0)]
    """
    step = layout.rise
    count = int((layout.top + SNAP - layout.first_course) // step) + 1
    return tuple(
        CourseLine(course=number + 1, height=layout.first_course + number * step)
        for number in range(count)
    )


def height_stations(wall: FittedWall, layout: Layout) -> tuple[float, ...]:
    """Return the heights of the plumb chain: low point of the deck, course lines, top.

    Parameters
    ----------
    wall
        The wall. [mm]
    layout
        The set-out. [mm]

    Returns
    -------
    tuple of float
        Heights from the datum, increasing. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_layout, sample_wall
    >>> height_stations(sample_wall(), sample_layout())
    (-250.0, 40.0, 340.0, 640.0)
    """
    deck = min(y for _, y in wall.deck)
    top = top_of(layout, wall.name)
    inner = [line.height for line in course_lines(layout) if line.height < top - SNAP]
    below = []
    if "floor" in wall.parts:  # courses go on down a leg beside the tub
        count = int((layout.first_course - deck) // layout.pitch[1])
        below = [layout.first_course - n * layout.pitch[1] for n in range(count, 0, -1)]
    return (deck, *below, *inner, top)


def level_lines(
    layout: Layout, words: Catalogue, *, around: Box, height: float
) -> tuple[Item, ...]:
    """Draw the datum and the course lines across a wall, named at its right.

    Parameters
    ----------
    layout
        The set-out. [mm]
    words
        Sentences, and how lengths are shown.
    around
        Box round the wall. [mm]
    height
        Height of the capitals, > 0. [mm]

    Returns
    -------
    tuple of Item
        Lines, leaders and names, from the lowest up.

    Notes
    -----
    Where the datum lies close to a course line the names move apart on their leaders.
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.sheet.sample import sample_layout
    >>> words = Catalogue(display=METRIC, sentences={
    ...     "sheet.datum": "datum", "sheet.above": "{n}: {height} up", "sheet.below": ""})
    >>> around = Box(left=0.0, bottom=-250.0, right=1500.0, top=700.0)
    >>> items = level_lines(sample_layout(), words, around=around, height=30.0)
    >>> [item.text for item in items if isinstance(item, Text)]
    ['datum', '1: 40 mm up', '2: 340 mm up', '3: 640 mm up']
    """
    named: list[tuple[float, Layer, str]] = [(0.0, "datum", words.text("sheet.datum"))]
    named += [(line.height, "course", line_name(line, words)) for line in course_lines(layout)]
    named.sort()
    heights = [y for y, _, _ in named]
    moved = spread(heights, lengths=[height] * len(heights), gap=0.6 * height)
    items: list[Item] = []
    for (y, layer, name), beside in zip(named, moved, strict=True):
        bend, end = around.right + height, around.right + 2.5 * height
        items += [
            Line(layer=layer, start=(around.left - height, y), end=(bend, y)),
            Line(layer=layer, start=(bend, y), end=(end, beside)),
            Text(
                layer=layer,
                at=(end + height / 2, beside),
                text=name,
                height=height,
                anchor="start",
                turn=0,
            ),
        ]
    return tuple(items)


def line_name(line: CourseLine, words: Catalogue) -> str:
    """Write a course line with its height above or below the datum.

    Parameters
    ----------
    line
        The line. [mm]
    words
        Sentences, and how lengths are shown.

    Returns
    -------
    str
        The course and the unsigned height, rounded once.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> words = Catalogue(display=METRIC, sentences={"sheet.below": "{n}: {height} down"})
    >>> line_name(CourseLine(course=1, height=-466.0), words)
    '1: 466 mm down'
    """
    key = "sheet.below" if line.height < 0 else "sheet.above"
    return words.text(key, n=line.course, height=Length(abs(line.height)))
