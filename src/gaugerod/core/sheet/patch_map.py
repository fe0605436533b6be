"""What makes a wall flat, drawn: depths of compound or shims, each figure at its place."""

from collections.abc import Iterator, Sequence

import shapely
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Point, Region, bounds_of, regions_of
from gaugerod.core.sheet.chain import bare_length
from gaugerod.core.sheet.drawing import Area, Drawing, Item, Line, Text
from gaugerod.core.sheet.lettering import extent
from gaugerod.core.sheet.pierced import pierced
from gaugerod.core.sheet.survey_labels import Label, broken, place_labels
from gaugerod.core.survey.patches import Patch
from gaugerod.core.survey.shims import ShimSchedule
from gaugerod.core.survey.walls import FittedWall

_FINENESS = 52  # the longer side of the wall in capitals of its figures
_CROSS = 0.4  # half a cross that marks a place, in capitals


def draw_patch(fitted: FittedWall, patch: Patch, surface: str, words: Catalogue) -> Drawing:
    """Draw how deep to fill at each place where a depth was read.

    Parameters
    ----------
    fitted
        The wall. [mm]
    patch
        Its patch map. [mm, mm3]
    surface
        What its depths were read to.
    words
        Sentences, and how lengths are shown.

    Returns
    -------
    Drawing
        The wall with what is to be filled hatched, and the depth flush to the high points.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from shapely.geometry import box
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.sheet.sample import sample_wall
    >>> from gaugerod.core.survey.mesh import mesh_of
    >>> from gaugerod.core.survey.patches import patch
    >>> from gaugerod.core.survey.plane import fit_plane
    >>> from gaugerod.core.survey.spots import Spot
    >>> heights = {(0.0, 0.0): 0.0, (600.0, 0.0): 0.0, (0.0, 600.0): 0.0, (600.0, 600.0): -4.0}
    >>> spots = [Spot(x=x, y=y, z=z, sigma=1.0) for (x, y), z in heights.items()]
    >>> made = patch(spots, mesh_of(spots), fit_plane(spots), within=box(0, 0, 600, 600),
    ...     goal="plumb", band=1.0)
    >>> words = Catalogue(display=METRIC, sentences={
    ...     "sheet.wall": "wall {name}", "patch-map.plumb": "to fill"})
    >>> drawing = draw_patch(sample_wall(), made, "backer", words)
    >>> [item.text for item in drawing.items if isinstance(item, Text)][-2:]
    ['4', 'to fill']
    """
    figures = [(spot.at, spot.flush) for spot in patch.spots]
    name = f"patch-{fitted.name}-{surface.replace(' ', '-')}-{patch.goal}"
    filled = shapely.union_all([shapely.Polygon(cell.ring) for cell in patch.cells])
    return _drawn(fitted, name, filled, figures, words)


def draw_shims(fitted: FittedWall, shims: ShimSchedule, words: Catalogue) -> Drawing:
    """Draw how thick a shim goes where on the studs.

    Parameters
    ----------
    fitted
        The wall. [mm]
    shims
        Its schedule. [mm]
    words
        Sentences, and how lengths are shown.

    Returns
    -------
    Drawing
        The wall with the thickness at each place.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.sheet.sample import sample_wall
    >>> from gaugerod.core.survey.shims import shim_schedule
    >>> from gaugerod.core.survey.spots import Spot
    >>> studs = [Spot(x=x, y=0.0, z=-x / 100, sigma=1.0) for x in (0.0, 400.0)]
    >>> words = Catalogue(display=METRIC, sentences={
    ...     "sheet.wall": "wall {name}", "patch-map.shims": "shims"})
    >>> drawing = draw_shims(sample_wall(), shim_schedule(studs, display=METRIC), words)
    >>> [item.text for item in drawing.items if isinstance(item, Text)][-3:]
    ['0', '4', 'shims']
    """
    figures = [(shim.at, shim.thickness) for shim in shims.shims]
    return _drawn(fitted, f"patch-{fitted.name}-shims", shapely.Point(), figures, words)


def _drawn(
    fitted: FittedWall,
    name: str,
    filled: BaseGeometry,
    figures: Sequence[tuple[Point, float]],
    words: Catalogue,
) -> Drawing:
    around = bounds_of((fitted.outline,))
    height = max(around.width, around.height) / _FINENESS
    labels = [
        Label(
            text=bare_length(deep, words.display),
            at=(x, y + height),
            of=(x, y),
            layer="tag",
        )
        for (x, y), deep in figures
    ]
    items: tuple[Item, ...] = (
        Area(layer="outline", region=Region(rings=(fitted.outline,))),
        *(item for item in pierced(fitted, height=height) if not isinstance(item, Text)),
        *_crosses([at for at, _ in figures], _CROSS * height),
        *place_labels(labels, height=height),
    )
    box = extent(items, margin=height)
    note = Text(
        layer="dimension",
        at=(box.left + height, box.bottom - height),
        text=words.text(f"patch-map.{name.rpartition('-')[2]}"),
        height=height,
        anchor="start",
        turn=0,
    )
    return Drawing(
        name=name,
        title=words.text("sheet.wall", name=fitted.name),
        bounds=extent((*items, note), margin=height),
        items=(*_hatched(fitted, filled), *broken((*items, note))),
    )


def _hatched(fitted: FittedWall, filled: BaseGeometry) -> Iterator[Area]:
    """Yield what is to be filled, on the wall alone."""
    boxes = [opening.box for opening in fitted.openings]
    open_ = shapely.union_all([shapely.box(b.left, b.bottom, b.right, b.top) for b in boxes])
    for region in regions_of(
        filled.intersection(shapely.Polygon(fitted.outline)).difference(open_)
    ):
        yield Area(layer="cut", region=region)


def _crosses(places: Sequence[Point], reach: float) -> Iterator[Line]:
    for x, y in places:
        yield Line(layer="dimension", start=(x - reach, y), end=(x + reach, y))
        yield Line(layer="dimension", start=(x, y - reach), end=(x, y + reach))
