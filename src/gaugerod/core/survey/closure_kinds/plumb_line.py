"""Advice on holes that are meant to stand on one plumb line."""

from collections.abc import Iterator

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.messages import Length, Message, Value
from gaugerod.core.job.readings import HoleCentre
from gaugerod.core.survey.closure_kinds.closure import Closure
from gaugerod.core.survey.closure_kinds.figures import Figure
from gaugerod.core.survey.closure_kinds.view import Edge, View

OFF_LINE = 6.35
"""Valve, spout and arm stand this near one plumb line, 1/4 in. [mm]"""


def plumb_line(view: View) -> Iterator[Closure]:
    """Say whether the holes of a wall stand on one plumb line.

    Parameters
    ----------
    view
        The wall.

    Yields
    ------
    Closure
        For each end that two holes or more were read from, how far the two outermost stand off
        the plumb line midway between them, beyond `OFF_LINE`. At worst to be looked at again:
        holes may stand apart on purpose. [mm]

    Notes
    -----
    Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.survey.closure_kinds.sample import sample_view
    >>> [closure.verdict for closure in plumb_line(sample_view())]
    ['go']
    """
    for end in ("left", "right"):
        holes = sorted(_along(view, end), key=lambda hole: hole[1].value)
        if len(holes) > 1:
            yield _judged(view, holes[0], holes[-1])


def _along(view: View, end: Edge) -> Iterator[tuple[str, Figure]]:
    """Each hole read from an end, and where it is along the level from that end at the datum."""
    for hole, read in view.each(HoleCentre):
        height = view.figure("hole", hole.of, "datum")
        if hole.start == end and height is not None:
            run = view.slopes[end] * height
            yield hole.of, run + read if end == "left" else run - read


def _judged(view: View, first: tuple[str, Figure], second: tuple[str, Figure]) -> Closure:
    off = (second[1] - first[1]) * 0.5
    beyond = max(off.value - OFF_LINE, 0.0)
    in_line = beyond < SNAP
    holes: dict[str, Value] = {
        "wall": view.name,
        "first": first[0],
        "second": second[0],
        "off": Length(off.value),
    }
    return Closure(
        kind="plumb line",
        walls=(view.name,),
        readings=off.ids,
        misclosure=beyond,
        sigma=off.sigma,
        ratio=beyond / off.sigma,
        verdict="go" if in_line else "look again",
        message=Message("closure.in-line", **holes)
        if in_line
        else Message("closure.off-line", **holes, usual=Length(OFF_LINE)),
    )
