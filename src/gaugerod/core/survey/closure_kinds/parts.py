"""Closures along the level: parts against the whole, and what was read from both ends."""

from collections.abc import Iterator

from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.readings import FixturePlace, HoleCentre, OpeningEdge
from gaugerod.core.survey.closure_kinds.closure import Closure, close
from gaugerod.core.survey.closure_kinds.figures import Figure
from gaugerod.core.survey.closure_kinds.view import View


def parts(view: View) -> Iterator[Closure]:
    """Hold the parts beside and across each opening against the width of the wall.

    Parameters
    ----------
    view
        The wall.

    Yields
    ------
    Closure
        For each opening, left part + opening + right part less the width of the wall at half
        its height; and, where both jambs were read from one end, what lies between them less
        the opening. [mm]

    Notes
    -----
    Source: own derivation, ``docs/theory/closures.md``.

    Examples
    --------
    >>> from gaugerod.core.survey.closure_kinds.sample import sample_view
    >>> [(closure.kind, closure.misclosure) for closure in parts(sample_view())]
    [('parts', 0.0)]
    """
    for name in dict.fromkeys(reading.of for reading, _ in view.each(OpeningEdge)):
        clear = view.figure("opening", name, "width", "itself")
        if clear is None:
            continue
        yield from _parts(view, name, clear)
        yield from _between_jambs(view, name, clear)


def _parts(view: View, name: str, clear: Figure) -> Iterator[Closure]:
    match (
        view.figure("opening", name, "left", "left"),
        view.figure("opening", name, "right", "right"),
        _width_at(view, _middle(view, name)),
    ):
        case Figure() as left, Figure() as right, Figure() as whole:
            total = left + clear + right
            yield close(
                "parts",
                (view.name,),
                total - whole,
                what=Message(
                    "closure.parts",
                    wall=view.name,
                    of=name,
                    left=Length(left.value),
                    clear=Length(clear.value),
                    right=Length(right.value),
                    sum=Length(total.value),
                    whole=Length(whole.value),
                ),
                hint=Message("closure.parts-hint"),
            )


def _between_jambs(view: View, name: str, clear: Figure) -> Iterator[Closure]:
    for end, beyond in (("left", "right"), ("right", "left")):
        match (
            view.figure("opening", name, beyond, end),
            view.figure("opening", name, end, end),
        ):
            case Figure() as far, Figure() as near:
                yield close(
                    "opening width",
                    (view.name,),
                    far - near - clear,
                    what=Message(
                        "closure.opening-width",
                        wall=view.name,
                        of=name,
                        far=Length(far.value),
                        near=Length(near.value),
                        between=Length((far - near).value),
                        clear=Length(clear.value),
                    ),
                    hint=Message("closure.opening-hint"),
                )


def both_ends(view: View) -> Iterator[Closure]:
    """Hold what was read from the left and from the right against the width.

    Parameters
    ----------
    view
        The wall.

    Yields
    ------
    Closure
        For each hole, fixture and jamb, from the left + from the right less the width of the
        wall at its height. [mm]

    Notes
    -----
    Source: own derivation, ``docs/theory/closures.md``.

    Examples
    --------
    >>> from gaugerod.core.survey.closure_kinds.sample import sample_view
    >>> [closure.misclosure for closure in both_ends(sample_view())]
    [0.0]
    """
    for hole, left in view.each(HoleCentre):
        if hole.start == "left":
            yield from _ends_of_centre(view, hole, left)
    for fixture, left in view.each(FixturePlace):
        if fixture.start == "left":
            yield from _ends_of_centre(view, fixture, left)
    for jamb, left in view.each(OpeningEdge):
        if jamb.start == "left":
            right = view.figure("opening", jamb.of, jamb.edge, "right")
            yield from _ends(view, jamb.of, left, right, _middle(view, jamb.of))


def _ends_of_centre(
    view: View, centre: HoleCentre | FixturePlace, left: Figure
) -> Iterator[Closure]:
    right = view.figure(centre.kind, centre.of, "right")
    height = view.figure(centre.kind, centre.of, "datum")
    return _ends(view, centre.of, left, right, height)


def _ends(
    view: View, of: str, left: Figure, other: Figure | None, height: Figure | None
) -> Iterator[Closure]:
    match other, _width_at(view, height):
        case Figure() as right, Figure() as whole:
            total = left + right
            yield close(
                "both ends",
                (view.name,),
                total - whole,
                what=Message(
                    "closure.both-ends",
                    wall=view.name,
                    of=of,
                    left=Length(left.value),
                    right=Length(right.value),
                    sum=Length(total.value),
                    whole=Length(whole.value),
                ),
                hint=Message("closure.both-ends-hint"),
            )


def _width_at(view: View, height: Figure | None) -> Figure | None:
    return None if height is None else view.width_at(height)


def _middle(view: View, opening: str) -> Figure | None:
    """Half the height of an opening, from any two of its sill, its head and its height."""
    sill = view.figure("opening", opening, "sill", "datum")
    head = view.figure("opening", opening, "head", "datum")
    height = view.figure("opening", opening, "height", "itself")
    match sill, head, height:
        case Figure() as low, Figure() as high, _:
            return (low + high) * 0.5
        case Figure() as low, None, Figure() as clear:
            return low + clear * 0.5
        case None, Figure() as high, Figure() as clear:
            return high - clear * 0.5
    return None
