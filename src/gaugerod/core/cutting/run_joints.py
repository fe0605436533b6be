"""Joints in a run that is longer than the stock: as few as can be, and none where none may be."""

from collections.abc import Iterable, Iterator, Sequence
from typing import TypeAlias

Span: TypeAlias = tuple[float, float]
"""From where to where along a run. [mm]."""

NOISE = 1e-6
"""Lengths this close are the same. [mm]"""


def joint_plans(
    length: float, *, stock: float, keep_off: Iterable[Span] = ()
) -> tuple[tuple[float, ...], ...]:
    """Place the joints of a run that is longer than the stock.

    Parameters
    ----------
    length
        Length of the run. [mm]
    stock
        The longest piece. [mm]
    keep_off
        Stretches of the run with no joint in them; their ends may have one. [mm]

    Returns
    -------
    tuple of tuple of float
        Where the joints may be: even, then with the rest at the end, then with the rest at
        the start, as far as these differ; no way at all where no joints will do. [mm]

    Notes
    -----
    The fewest joints are those of going as far as a piece allows, each time. Going back the
    same way from the end gives the earliest place of each; between that and one stock
    length after the joint before, each even joint is moved as little as the stretches ask.
    Source: own derivation.

    Examples
    --------
    2.7 m from stock of 1 m takes three pieces. 0.9 and 1.8 would be even:

    >>> joint_plans(2700.0, stock=1000.0, keep_off=[(1750.0, 1900.0)])
    ((900.0, 1750.0), (1000.0, 2000.0), (700.0, 1700.0))
    """
    free = tuple(_free(length, sorted(keep_off)))
    far = _far(length, stock, free)
    if far is None:
        return ()
    turned = tuple((length - end, length - start) for start, end in reversed(free))
    back = _far(length, stock, turned) or ()
    near = tuple(length - joint for joint in reversed(back))
    return tuple(dict.fromkeys((_even(length, stock, free, near), far, near)))


def _free(length: float, keep_off: Sequence[Span]) -> Iterator[Span]:
    at = 0.0
    for start, end in keep_off:
        if start > at:
            yield at, start
        at = max(at, end)
    if at < length:
        yield at, length


def _far(length: float, stock: float, free: Sequence[Span]) -> tuple[float, ...] | None:
    """Go on by the longest piece until the rest is no longer than the stock."""
    joints = [0.0]
    while length - joints[-1] > stock + NOISE:
        reach = joints[-1] + stock
        last = max((min(end, reach) for start, end in free if start <= reach), default=0.0)
        if last <= joints[-1] + NOISE:
            return None
        joints.append(last)
    return tuple(joints[1:])


def _even(
    length: float, stock: float, free: Sequence[Span], near: Sequence[float]
) -> tuple[float, ...]:
    joints = [0.0]
    for number, least in enumerate(near, start=1):
        most = joints[-1] + stock
        wish = min(max(length * number / (len(near) + 1), least), most)
        places = [
            min(max(wish, start, least), end, most)
            for start, end in free
            if end >= least - NOISE and start <= most + NOISE
        ]
        joints.append(min(places, key=lambda place: abs(place - wish)))
    return tuple(joints[1:])
