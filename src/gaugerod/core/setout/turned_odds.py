"""By how much a pattern keeps its limits on a wall that moves."""

from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import LEAST_AREA, bounds_of
from gaugerod.core.base.widths import narrowest
from gaugerod.core.setout.field import FAR, gross_of
from gaugerod.core.setout.layout import Layout, placed_pattern
from gaugerod.core.setout.margins import Margin, Planned
from gaugerod.core.setout.openings import opening_boxes
from gaugerod.core.setout.turned_score import clipped
from gaugerod.core.survey.walls import FittedWall


def as_panels(layout: Layout) -> Layout:
    """Return a layout of two panels on each wall that meet half way and reach beyond its rims.

    Parameters
    ----------
    layout
        A layout in a pattern. [mm]

    Returns
    -------
    Layout
        The same fields, finish and meetings; only the ends of its walls mean anything. [mm]

    Notes
    -----
    What laps or seals the end of a wall hides as much of a module on the diagonal as of one that
    lies level: all of them are cut to the rim. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> _, layout, _ = sample_layout()
    >>> round(as_panels(layout).walls[1].phase, 1)
    755.6
    """
    halves = (bounds_of(wall.field.gross.rings) for wall in layout.walls)
    return replace(
        layout,
        face=(FAR, FAR),
        pitch=(FAR, FAR),
        first_course=FAR / 2,
        walls=tuple(
            replace(wall, phase=(box.left + box.right) / 2, row_shift=0.0)
            for wall, box in zip(layout.walls, halves, strict=True)
        ),
        pattern=None,
    )


def pattern_margins(layout: Layout, plan: Planned, wall: FittedWall) -> tuple[Margin, ...]:
    """Return what is left over of the least width, module by module, on a wall that has moved.

    Parameters
    ----------
    layout
        The layout in a pattern. [mm]
    plan
        How the wall is met, and the wall as planned. [mm]
    wall
        The wall as it is. [mm]

    Returns
    -------
    tuple of Margin
        One for each module that is cut on the wall as planned. [mm]

    Notes
    -----
    The pattern stays where it is struck, the rims follow the wall. Where an opening splits a
    module, the narrower part counts. Source: own derivation, ``docs/theory/odds.md``.

    Examples
    --------
    Square tile on the diagonal in the sample alcove: nothing is narrower than 50.

    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_tile
    >>> from gaugerod.core.setout.search import set_out
    >>> from gaugerod.core.setout.spread import plans_of
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> choices = sample_job().choices.model_copy(update={"bond": "diagonal"})
    >>> walls, tile = fit_walls(sample_job()), sample_tile()
    >>> layout = set_out(walls, choices, tile, sample_rates().looks).layouts[0]
    >>> plan = plans_of(walls, as_panels(layout), tile)[1]
    >>> min(margin.value for margin in pattern_margins(layout, plan, walls.walls[1])) > 0
    True
    """
    own = next(one for one in layout.walls if one.name == wall.name)
    pattern = placed_pattern(layout, own)
    least = plan.system.cutting.least
    if not pattern:
        return ()
    _, modules = pattern.shapes(bounds_of(own.field.gross.rings))
    solid = _solid(plan, plan.batch.case.wall)
    left = shapely.area(shapely.intersection(modules, solid))
    cut = modules[(left > LEAST_AREA) & (shapely.area(modules) - left > LEAST_AREA)]
    parts, owner = clipped(cut, _solid(plan, wall))
    widths = np.full(len(cut), np.inf)
    np.minimum.at(widths, owner, [narrowest(part) for part in parts])
    return tuple(Margin("under-least", float(width) - least) for width in widths)


def _solid(plan: Planned, wall: FittedWall) -> BaseGeometry:
    """Return the field on a wall that has moved, openings out and holes not drilled."""
    case = plan.batch.case
    gross = gross_of(wall, case.met, case.system, top=case.top)
    out = [shapely.box(b.left, b.bottom, b.right, b.top) for b in opening_boxes(wall, case.system)]
    return shapely.difference(gross, shapely.union_all(out))
