"""Closures of the widths: against the leans of both edges, and against each other."""

from collections.abc import Iterator

from gaugerod.core.base.messages import Length, Message
from gaugerod.core.survey.closure_kinds.closure import Closure, close
from gaugerod.core.survey.closure_kinds.figures import known
from gaugerod.core.survey.closure_kinds.profile import Profile
from gaugerod.core.survey.closure_kinds.view import View


def leans(view: View) -> Iterator[Closure]:
    """Hold the leans of both edges against the widths at the top and at the bottom.

    Parameters
    ----------
    view
        The wall.

    Yields
    ------
    Closure
        Top width less bottom width, less what the leans make of it. [mm]

    Notes
    -----
    Inward leans `l` and `r` over a height `h` make the top width differ from the bottom width
    by ``-(l + r)``. Source: own derivation, ``docs/theory/closures.md``.

    Examples
    --------
    >>> from gaugerod.core.survey.closure_kinds.sample import sample_view
    >>> [round(closure.misclosure, 9) for closure in leans(sample_view())]
    [0.0]
    """
    widths = view.widths
    if len(widths.places) > 1 and len(view.read) > 1:
        low, high = widths.places[0], widths.places[-1]
        change = widths.values[-1] - widths.values[0]
        says = (view.read["right"] - view.read["left"]) * (high - low)
        yield close(
            "leans",
            (view.name,),
            change - says,
            what=Message(
                "closure.leans",
                wall=view.name,
                low=Length(low),
                high=Length(high),
                change=Length(change.value),
                says=Length(says.value),
            ),
            hint=Message("closure.leans-hint"),
        )


def bow(view: View) -> Iterator[Closure]:
    """Hold each width between against the straight line from the bottom width to the top width.

    Parameters
    ----------
    view
        The wall.

    Yields
    ------
    Closure
        Each width between less what it would be if both edges were straight. [mm]

    Notes
    -----
    Source: own derivation, ``docs/theory/closures.md``.

    Examples
    --------
    >>> from gaugerod.core.survey.closure_kinds.sample import sample_view
    >>> [closure.misclosure for closure in bow(sample_view())]
    [0.0]
    """
    places, values = view.widths.places, view.widths.values
    ends = Profile(places=places[:1] + places[-1:], values=values[:1] + values[-1:])
    for height, width in zip(places[1:-1], values[1:-1], strict=True):
        straight = ends.at(known(height))
        yield close(
            "bow",
            (view.name,),
            width - straight,
            what=Message(
                "closure.bow",
                wall=view.name,
                height=Length(height),
                reads=Length(width.value),
                straight=Length(straight.value),
            ),
            hint=Message("closure.bow-hint"),
        )
