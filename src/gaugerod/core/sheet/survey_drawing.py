"""A wall's survey as a setter sketches it: every reading where it was taken, suspects boxed."""

from collections.abc import Iterator, Mapping, Sequence

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box, Region, bounds_of
from gaugerod.core.job.document import Wall
from gaugerod.core.sheet.drawing import Area, Circle, Drawing, Item, Line, Text
from gaugerod.core.sheet.lettering import extent
from gaugerod.core.sheet.pierced import pierced
from gaugerod.core.sheet.survey_labels import Label, broken, place_labels
from gaugerod.core.sheet.survey_letters import lettered
from gaugerod.core.sheet.survey_marks import Mark, mark_of
from gaugerod.core.sheet.survey_shape import Shape, shape_of_wall
from gaugerod.core.survey.naming import named
from gaugerod.core.survey.walls import FittedWall, Suspect

# A wall, wide and tall, in capitals of its figures: no more, or with what stands beside it they
# would come out under ten points on a sheet.
_WIDE, _TALL = 38, 52


def draw_survey(
    wall: Wall, fitted: FittedWall, suspects: Sequence[Suspect], words: Catalogue
) -> Drawing:
    """Draw the survey of one wall.

    Parameters
    ----------
    wall
        The wall in the job, with its readings. [mm]
    fitted
        The same wall as the survey found it. [mm]
    suspects
        Suspects of any walls, in the order of their letters.
    words
        Sentences, and how lengths are shown.

    Returns
    -------
    Drawing
        The wall with lean, bow and fall made larger by a factor that it states; figures that
        are the same at the same place once, with their number.

    Notes
    -----
    Source: own design, after how setters sketch a wall.

    Examples
    --------
    >>> from collections import defaultdict
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> words = Catalogue(display=METRIC, sentences=defaultdict(lambda: "{name}", {
    ...     "survey-sheet.plain": "{reads}", "survey-sheet.down": "{reads}",
    ...     "survey-sheet.up": "{reads}", "survey-sheet.plumb": "plumb",
    ...     "survey-sheet.factor": "x {factor}", "sheet.datum": "datum"}))
    >>> job = sample_job()
    >>> drawing = draw_survey(job.wall[1], fit_walls(job).walls[1], (), words)
    >>> [item.text for item in drawing.items if isinstance(item, Text)][:2]
    ['datum', '1500']
    """
    shape = shape_of_wall(fitted)
    around = bounds_of((shape.outline,))
    height = max(around.width / _WIDE, around.height / _TALL)
    marks = _gathered(wall, shape, words, height)
    holding = _letters(suspects)
    labels = [
        Label(
            text=words.text("sheet.datum"),
            at=(around.right + 4 * height, 0.0),
            of=(around.right, 0.0),
            layer="datum",
        ),
        *_names(shape, height),
        *(_label(mark, names, holding, words) for mark, names in marks.items()),
    ]
    labels.sort(key=lambda label: not label.boxed)
    items: tuple[Item, ...] = (
        *true_lines(shape, around),
        Area(layer="outline", region=Region(rings=(shape.outline,))),
        *(item for item in pierced(shape.wall, height=height) if not isinstance(item, Text)),
        *dict.fromkeys(line for mark in marks for line in mark.lines),
        _datum(around, height),
        *place_labels(labels, height=height, taken=_round_holes(shape)),
    )
    box = extent(items, margin=height)
    note = Text(
        layer="dimension",
        at=(box.left + height, box.bottom - height),
        text=words.text("survey-sheet.factor", factor=shape.factor),
        height=height,
        anchor="start",
        turn=0,
    )
    return Drawing(
        name=f"survey-{wall.name}",
        title=words.text("sheet.wall", name=wall.name),
        bounds=extent((*items, note), margin=height),
        items=broken((*items, note)),
    )


def _gathered(
    wall: Wall, shape: Shape, words: Catalogue, height: float
) -> dict[Mark, tuple[str, ...]]:
    """Return what is to be written, each with the names of the readings that say it."""
    marks: dict[Mark, tuple[str, ...]] = {}
    for name, reading in named(wall):
        mark = mark_of(reading, shape, words, height=height)
        marks[mark] = (*marks.get(mark, ()), name)
    return marks


def _letters(suspects: Sequence[Suspect]) -> dict[str, str]:
    return {name: letter for letter, one in lettered(suspects) for name in one.readings}


def _label(
    mark: Mark, names: tuple[str, ...], holding: Mapping[str, str], words: Catalogue
) -> Label:
    text = mark.text
    if len(names) > 1:
        text = words.text("survey-sheet.times", said=text, n=len(names))
    letters = sorted({holding[name] for name in names if name in holding})
    if not letters:
        return Label(text=text, at=mark.at, of=mark.of)
    text = words.text("survey-sheet.lettered", letters=" ".join(letters), said=text)
    return Label(text=text, at=mark.at, of=mark.of, layer="tag", boxed=True)


def _names(shape: Shape, height: float) -> Iterator[Label]:
    for opening in shape.wall.openings:
        x, y = (opening.box.left + opening.box.right) / 2, opening.box.top - height
        yield Label(text=opening.name, at=(x, y), of=(x, y), layer="opening")
    for fixture in shape.wall.fixtures:
        x, y = (fixture.box.left + fixture.box.right) / 2, fixture.box.top + height
        yield Label(text=fixture.name, at=(x, y), of=(x, fixture.box.top), layer="fixture")
    for hole in shape.wall.holes:
        above = hole.y + hole.diameter / 2
        yield Label(text=hole.name, at=(hole.x, above + height), of=(hole.x, above), layer="hole")


def _round_holes(shape: Shape) -> list[Box]:
    return [
        Box(
            left=circle.centre[0] - circle.diameter / 2,
            bottom=circle.centre[1] - circle.diameter / 2,
            right=circle.centre[0] + circle.diameter / 2,
            top=circle.centre[1] + circle.diameter / 2,
        )
        for circle in pierced(shape.wall, height=0.0)
        if isinstance(circle, Circle)
    ]


def _datum(around: Box, height: float) -> Line:
    start, end = (around.left - height, 0.0), (around.right + height, 0.0)
    return Line(layer="datum", start=start, end=end)


def true_lines(shape: Shape, around: Box) -> Iterator[Line]:
    """Yield the plumb and level lines that a wall departs from.

    Parameters
    ----------
    shape
        The wall as drawn. [mm]
    around
        The box round its outline. [mm]

    Yields
    ------
    Line
        Plumb through where each edge meets the datum, level through the lowest points of deck
        and ceiling. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_wall
    >>> shape = shape_of_wall(sample_wall())
    >>> [line.start[0] for line in true_lines(shape, bounds_of((shape.outline,)))]
    [0.0, 2100.0, 0.0, 0.0]
    """
    for x in (shape.left.offset, shape.right.offset):
        yield Line(layer="course", start=(x, around.bottom), end=(x, around.top))
    for line in (shape.deck, shape.ceiling):
        low = min(y for _, y in line)
        yield Line(layer="course", start=(around.left, low), end=(around.right, low))
