"""Closures of the diagonals against each other, the leans and the widths."""

from collections.abc import Iterator
from math import hypot

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.readings import CornerToCorner
from gaugerod.core.survey.closure_kinds.closure import Closure, close
from gaugerod.core.survey.closure_kinds.figures import Figure, known
from gaugerod.core.survey.closure_kinds.view import View


def diagonals(view: View) -> Iterator[Closure]:
    """Hold the diagonals of a wall against its leans and widths.

    Parameters
    ----------
    view
        The wall.

    Yields
    ------
    Closure
        For each pair between the same two heights, how far their difference and how far their
        mean miss what the leans and widths say; for a diagonal without a partner, how far it
        misses. [mm]

    Notes
    -----
    A diagonal from `u` on the left edge to `v` on the right edge reaches across
    ``(width(u) + width(v)) / 2 + (left + right) * (v - u) / 2``, left and right the slopes of
    the edges. Source: own derivation, ``docs/theory/closures.md``.

    Examples
    --------
    >>> from gaugerod.core.survey.closure_kinds.sample import sample_view
    >>> [(c.kind, round(c.misclosure, 6)) for c in diagonals(sample_view())]
    [('diagonals', 0.0), ('diagonal', 0.0)]
    """
    for reading, figure in view.each(CornerToCorner):
        low, high = reading.left_at, reading.right_at
        across = _across(view, low, high)
        if across is None:
            continue
        other = view.figure("corner to corner", high, low)
        back = _across(view, high, low)
        if low == high or other is None or back is None:
            yield _single(view, figure, across, high - low)
        elif low < high:
            yield _difference(view, (figure, other), (across, back), high - low)
            yield _mean(view, (figure, other), (across, back), high - low)


def _across(view: View, left_at: float, right_at: float) -> Figure | None:
    """How far a diagonal reaches along the level, None where the widths do not tell."""
    at_left, at_right = view.width_at(known(left_at)), view.width_at(known(right_at))
    if at_left is None or at_right is None:
        return None
    slopes = view.slopes["left"] + view.slopes["right"]
    across = (at_left + at_right) * 0.5 + slopes * ((right_at - left_at) * 0.5)
    # Lines through odd widths may meet below the ceiling: there is no wall beyond.
    return across if across.value > SNAP else None


def _straight(*, across: Figure, up: float) -> Figure:
    """Length of a diagonal: by Pythagoras, and to first order where its reach changes."""
    length = hypot(across.value, up)
    return (across - across.value) * (across.value / length) + length


def _single(view: View, read: Figure, across: Figure, up: float) -> Closure:
    says = _straight(across=across, up=up)
    return close(
        "diagonal",
        (view.name,),
        read - says,
        what=Message(
            "closure.diagonal",
            wall=view.name,
            reads=Length(read.value),
            says=Length(says.value),
        ),
        hint=_width_hint(read.value - says.value, says.value / across.value),
    )


def _mean(
    view: View, read: tuple[Figure, Figure], across: tuple[Figure, Figure], up: float
) -> Closure:
    rising, falling = read
    mean = (rising + falling) * 0.5
    says = (_straight(across=across[0], up=up) + _straight(across=across[1], up=up)) * 0.5
    return close(
        "diagonal",
        (view.name,),
        mean - says,
        what=Message(
            "closure.diagonals-mean",
            wall=view.name,
            rising=Length(rising.value),
            falling=Length(falling.value),
            mean=Length(mean.value),
            says=Length(says.value),
        ),
        hint=_width_hint(
            mean.value - says.value, 2 * says.value / (across[0].value + across[1].value)
        ),
    )


def _width_hint(miss: float, per_width: float) -> Message:
    return Message("closure.diagonal-hint", width=Length(abs(miss * per_width)))


def _difference(
    view: View, read: tuple[Figure, Figure], across: tuple[Figure, Figure], up: float
) -> Closure:
    rising, falling = read
    would_rise, would_fall = (_straight(across=reach, up=up) for reach in across)
    miss = rising - falling - (would_rise - would_fall)
    # Shift the top to the right by one, and the diagonals part by this.
    parting = across[0].value / would_rise.value + across[1].value / would_fall.value
    lean = miss.value / parting
    return close(
        "diagonals",
        (view.name,),
        miss,
        what=Message(
            "closure.diagonals",
            wall=view.name,
            rising=Length(rising.value),
            falling=Length(falling.value),
            differ=Length(rising.value - falling.value),
            says=Length(would_rise.value - would_fall.value),
        ),
        hint=Message(
            "closure.diagonals-hint",
            lean=Length(abs(lean)),
            over=Length(up),
            side=Message("closure.to-right" if lean > 0 else "closure.to-left"),
        ),
    )
