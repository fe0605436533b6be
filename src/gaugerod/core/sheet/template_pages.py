"""Drilling templates at full size: the holes, the edges to hold to, and where pages are joined."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import shapely
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box, Point
from gaugerod.core.base.lengths import show_length
from gaugerod.core.base.messages import Length
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.drawing import Area, Circle, Drawing, Item, Layer, Line, Text
from gaugerod.core.sheet.lettering import place_text, region_of, text_box, text_width
from gaugerod.core.sheet.page import (
    BIG,
    GAP,
    HUGE,
    LARGE,
    PLAIN,
    SIDE,
    Said,
    check_square,
    fitted,
    frame,
    on_page,
    set_lines,
)
from gaugerod.core.sheet.template import ARM, Drill, Hold, Template, line_of
from gaugerod.core.sheet.tiles import (
    Join,
    Stretch,
    Stroke,
    Tile,
    clipped,
    joins,
    shape_of_stroke,
    tiled,
)

OVERLAP = {"imperial": 12.7, "metric": 12.0}
"""What neighbouring pages share. [mm]"""
_HATCH, _PITCH = 3.0, 7.0  # strokes outside a factory edge, and from one to the next
_CROSS = 3.0  # half of a match mark
_CLEAR = 1.2  # between a line and a text
_MAP = 20.0  # of the small map of the pages
_OUT: dict[Side, Point] = {
    "left": (-1.0, 0.0),
    "right": (1.0, 0.0),
    "bottom": (0.0, -1.0),
    "top": (0.0, 1.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Pages:
    """Width and height that a page has, upright and lying. [mm]."""

    upright: Point
    lying: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class _Room:
    """How a page is shared out: the template, the check square, and the words beside it. [mm]."""

    page: Point
    template: Box
    square: Point
    words: Box


def room_of(pages: Pages, words: Catalogue) -> Point:
    """Return what an upright page leaves for a template above the check square.

    Parameters
    ----------
    pages
        What a page has. [mm]
    words
        How lengths are shown.

    Returns
    -------
    tuple of float
        Width and height. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> pages = Pages(upright=(180.0, 245.0), lying=(250.0, 175.0))
    >>> room_of(pages, Catalogue(display=METRIC, sentences={}))
    (180.0, 142.0)
    """
    box = _upright(pages.upright, SIDE[words.display.system]).template
    return box.width, box.height


def _upright(page: Point, side: float) -> _Room:
    wide, tall = page
    return _Room(
        page=page,
        template=Box(left=0.0, bottom=side + GAP, right=wide, top=tall),
        square=(0.0, 0.0),
        words=Box(left=side + GAP, bottom=0.0, right=wide, top=side),
    )


def _lying(page: Point, side: float) -> _Room:
    wide, tall = page
    return _Room(
        page=page,
        template=Box(left=0.0, bottom=0.0, right=wide - side - GAP, top=tall),
        square=(wide - side, 0.0),
        words=Box(left=wide - side, bottom=side + GAP, right=wide, top=tall),
    )


def template_pages(template: Template, words: Catalogue, *, pages: Pages) -> tuple[Drawing, ...]:
    """Draw a template at full size.

    Parameters
    ----------
    template
        The template. [mm]
    words
        Sentences, and how lengths are shown.
    pages
        What a page has, at least 178 by 242 upright and 245 by 173 lying. [mm]

    Returns
    -------
    tuple of Drawing
        One page or several, all upright or all lying, whichever takes fewer, from the upper
        left, each with its check square. Pages begin where the holes are. A name that has no
        room beside what it names is left out: it stands beside the square too. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from collections import defaultdict
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.sheet.sample import sample_drilled
    >>> from gaugerod.core.sheet.template import templates
    >>> words = Catalogue(display=METRIC, sentences=defaultdict(lambda: "word"))
    >>> pages = Pages(upright=(180.0, 245.0), lying=(250.0, 175.0))
    >>> (made,) = templates(*sample_drilled(), room=room_of(pages, words), step=10.0)
    >>> [drawing.name for drawing in template_pages(made, words, pages=pages)]
    ['template-B2-4-up-1', 'template-B2-4-up-2']
    """
    overlap, side = OVERLAP[words.display.system], SIDE[words.display.system]
    rooms = (_upright(pages.upright, side), _lying(pages.lying, side))
    room, tiles = min(
        ((room, _tiles(template, room, overlap)) for room in rooms), key=lambda both: len(both[1])
    )
    way = "down" if template.down else "up"
    return tuple(
        Drawing(
            name=f"template-{template.tag}-{way}-{number}",
            title=words.text(f"full-size.face-{way}", tag=template.tag),
            bounds=on_page(room.page),
            items=(
                *_placed(_shown(template, tile, words, overlap), tile.box, room.template),
                *_block(template, tiles, number, words, room),
            ),
        )
        for number, tile in enumerate(tiles, start=1)
    )


def _tiles(template: Template, room: _Room, overlap: float) -> tuple[Tile, ...]:
    """Part a template from its holes towards the edges it is held to, and order the pages."""
    tiles = tiled(
        template.bounds,
        room=(room.template.width, room.template.height),
        overlap=overlap,
        from_right=template.across.side == "left",
        from_top=template.up.side == "bottom",
    )
    return tuple(sorted(tiles, key=lambda tile: (-tile.row, tile.column)))


def _placed(items: Sequence[Stroke | Text], box: Box, room: Box) -> Iterator[Item]:
    """Move what a page shows to its place: in the middle of its room, at the top."""
    dx, dy = (room.left + room.right - box.width) / 2 - box.left, room.top - box.top

    def moved(point: Point) -> Point:
        return point[0] + dx, point[1] + dy

    for item in items:
        match item:
            case Line():
                yield replace(item, start=moved(item.start), end=moved(item.end))
            case Circle():
                yield replace(item, centre=moved(item.centre))
            case _:
                yield replace(item, at=moved(item.at))


def _shown(
    template: Template, tile: Tile, words: Catalogue, overlap: float
) -> tuple[Stroke | Text, ...]:
    """Return what one page shows of a template, in the template's frame."""
    drawn = [part for item in _drawn(template) for part in clipped(item, tile.box)]
    met = joins(tile, overlap=overlap)
    for join in met:
        drawn.append(Line(layer="beyond", start=join.start, end=join.end))
        drawn += [p for mark in _match_marks(join, template) for p in clipped(mark, tile.box)]
    busy = shapely.union_all([shape_of_stroke(item).buffer(_CLEAR) for item in drawn])
    texts: list[Text] = []
    page = shapely.box(tile.box.left, tile.box.bottom, tile.box.right, tile.box.top)
    free = page.difference(busy)
    for wish in (*_wishes(template, words), *(_letter(join) for join in met)):
        region = wish.inside.intersection(free)
        if region.is_empty or not (wish.of is None or page.covers(wish.of)):
            continue
        text = place_text(
            wish.text,
            layer=wish.layer,
            inside=region,
            taken=[text_box(other) for other in texts],
            height=wish.height,
        )
        if text.height == wish.height:
            texts.append(text)
    return (*drawn, *texts)


def _drawn(template: Template) -> Iterator[Stroke]:
    for start, end in template.outline:
        yield Line(layer="hole", start=start, end=end)
    for side, stretch in template.factory:
        yield from _hatched(side, stretch)
    for hold, level in ((template.across, False), (template.up, True)):
        if hold.far:
            yield _stand_in(hold, template.bounds, level=level)
    for drill in template.drills:
        (x, y), reach = drill.at, drill.diameter / 2 + ARM
        yield Circle(layer="outline", centre=drill.at, diameter=drill.diameter)
        yield Line(layer="piece", start=(x - reach, y), end=(x + reach, y))
        yield Line(layer="piece", start=(x, y - reach), end=(x, y + reach))


def _hatched(side: Side, stretch: Stretch) -> Iterator[Line]:
    """Yield short strokes outside a factory edge: there the module ends, the paper goes on."""
    (x0, y0), (x1, y1) = sorted(stretch)
    long = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    along, out = ((x1 - x0) / long, (y1 - y0) / long), _OUT[side]
    lean = (_HATCH * (along[0] + out[0]), _HATCH * (along[1] + out[1]))
    for number in range(int((long - _HATCH) // _PITCH) + 1):
        start = (x0 + number * _PITCH * along[0], y0 + number * _PITCH * along[1])
        yield Line(layer="piece", start=start, end=(start[0] + lean[0], start[1] + lean[1]))


def _stand_in(hold: Hold, bounds: Box, *, level: bool) -> Line:
    at = line_of(hold)
    if level:
        return Line(layer="datum", start=(bounds.left, at), end=(bounds.right, at))
    return Line(layer="datum", start=(at, bounds.bottom), end=(at, bounds.top))


def _match_marks(join: Join, template: Template) -> Iterator[Line]:
    """Yield crosses on a join, at the same places on both pages whatever each of them shows."""
    upright = join.start[0] == join.end[0]
    bounds = template.bounds
    low, high = (bounds.bottom, bounds.top) if upright else (bounds.left, bounds.right)
    for share in (1, 3, 5, 7):
        at = low + (high - low) * share / 8
        x, y = (join.start[0], at) if upright else (at, join.start[1])
        for way in (-1.0, 1.0):
            yield Line(
                layer="hole",
                start=(x - _CROSS, y - way * _CROSS),
                end=(x + _CROSS, y + way * _CROSS),
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wish:
    """A text and where it would stand, on the page that shows what it is `of`. [mm]."""

    text: str
    height: float
    layer: Layer
    inside: BaseGeometry
    of: BaseGeometry | None = None


def _drill(drill: Drill, words: Catalogue) -> str:
    """Name a hole and its diameter, which is rounded up: what comes through goes through."""
    size = show_length(drill.diameter, words.display, rounding="up")
    return words.text("full-size.drill", name=drill.name, drill=size)


def _letter(join: Join) -> _Wish:
    near = shapely.LineString([join.start, join.end]).buffer(3.2 * LARGE, cap_style="flat")
    return _Wish(text=join.name, height=LARGE, layer="tag", inside=near)


def _wishes(template: Template, words: Catalogue) -> Iterator[_Wish]:
    for drill in template.drills:
        text = _drill(drill, words)
        (x, y), out = drill.at, drill.diameter / 2 + ARM
        wide, tall = out + text_width(text, height=LARGE), out + 3 * LARGE
        near = shapely.box(x - wide, y - tall, x + wide, y + tall)
        centre = shapely.Point(drill.at)
        yield _Wish(text=text, height=LARGE, layer="tag", inside=near, of=centre)
    factory = words.text("full-size.factory")
    for side, stretch in template.factory:
        dx, dy = _OUT[side]
        beyond = [(x + ARM * dx, y + ARM * dy) for x, y in stretch]
        band = shapely.MultiPoint([*stretch, *beyond]).envelope
        yield _Wish(text=factory, height=PLAIN, layer="dimension", inside=band)
    for hold, level in ((template.across, False), (template.up, True)):
        if hold.far:
            line = _stand_in(hold, template.bounds, level=level)
            near = shapely.LineString([line.start, line.end]).buffer(ARM, cap_style="flat")
            text = words.text(f"full-size.far-{hold.side}", far=Length(hold.far))
            yield _Wish(text=text, height=LARGE, layer="tag", inside=near)
    way = "down" if template.down else "up"
    box = template.bounds
    yield _Wish(
        text=words.text(f"full-size.face-{way}", tag=template.tag),
        height=LARGE,
        layer="tag",
        inside=shapely.box(box.left + ARM, box.bottom + ARM, box.right - ARM, box.top - ARM),
    )


def _block(
    template: Template, tiles: Sequence[Tile], number: int, words: Catalogue, room: _Room
) -> Iterator[Item]:
    """Yield the check square and, beside it, which page this is and what is drilled."""
    count, box = len(tiles), room.words
    how = [Said(text=words.text("full-size.fold"))]
    if count > 1:
        shared = Length(OVERLAP[words.display.system])
        how.append(Said(text=words.text("full-size.join", overlap=shared)))
        yield from _map(tiles, number, left=box.right - _MAP, top=box.top)
    left, bottom = room.square
    yield from check_square(words, left=left, bottom=bottom, more=tuple(how))
    width = box.width - (_MAP + GAP if count > 1 else 0.0)
    facts = tuple(_facts(template, number, count, words))
    yield from fitted(set_lines(facts, left=box.left, top=box.top, width=width), bottom=box.bottom)


def _facts(template: Template, number: int, count: int, words: Catalogue) -> Iterator[Said]:
    way = "down" if template.down else "up"
    yield Said(text=template.tag, height=HUGE, bold=True)
    yield Said(text=words.text(f"full-size.{way}-lies"), height=BIG, bold=True)
    yield Said(text=words.text("full-size.page", n=number, of=count))
    if template.in_place:
        yield Said(text=words.text("card.in-place"), bold=True)
    for drill in template.drills:
        text = _drill(drill, words)
        yield Said(text=text, height=LARGE, bold=True)
        for hold, value in ((template.across, drill.across), (template.up, drill.up)):
            key = f"full-size.from-{hold.side}" if hold.kept else f"full-size.from-cut-{hold.side}"
            if value < 0:
                key = f"full-size.beyond-{hold.side}"
            yield Said(text=words.text(key, value=Length(abs(value))), height=LARGE)


def _map(tiles: Sequence[Tile], number: int, *, left: float, top: float) -> Iterator[Item]:
    """Draw how the pages lie to each other, with this one filled."""
    rows = tiles[0].rows
    size = _MAP / max(rows, tiles[0].columns)
    for count, tile in enumerate(tiles, start=1):
        x, y = left + tile.column * size, top - (rows - tile.row) * size
        box = Box(left=x, bottom=y, right=x + size, top=y + size)
        if count == number:
            yield Area(layer="body", region=region_of(box), tone=0.6)
        yield from frame(box, layer="piece")
