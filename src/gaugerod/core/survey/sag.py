"""Along one line: the worst gap under a straightedge, exactly."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.survey.adjust import Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """A surface along one line: heights at stations, straight between them. [mm].

    `solid` tells of each stretch between two stations whether it is wall, not an opening.
    """

    t: Array
    z: Array
    solid: NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sag:
    """A gap below the line from `start` to `end`, deepest at `at`. [mm].

    `excess` is what the gap has beyond what is allowed.
    """

    start: float
    at: float
    end: float
    gap: float
    excess: float


def worst_sag(
    profile: Profile, lengths: Sequence[float], allow: Callable[[Array], Array]
) -> Sag | None:
    r"""Return the gap along a line that is farthest beyond what is allowed.

    Parameters
    ----------
    profile
        The line; its stations grow.
    lengths
        Lengths of straightedges to roll along it, each > 0. [mm]
    allow
        What is allowed between two high points, from their distance; infinite where nothing
        is known.

    Returns
    -------
    Sag or None
        Where and by how much, none where the line has nothing between two high points. [mm]

    Notes
    -----
    Over high points at :math:`p` and :math:`q` the gap at :math:`v` is the height of the chord
    less that of the surface. It is greatest with :math:`v` on a station; for a given
    :math:`v` it rises or falls steadily as one high point moves along a stretch, so that it is
    greatest with both on stations or with :math:`q - p` the whole length, and then it is a
    parabola in :math:`p` between stations, whose top is taken. A point that stands above the
    chord needs no care: another chord through it lies higher and has the greater gap. Source:
    own derivation, ``docs/theory/flatness.md``.

    Examples
    --------
    >>> step = Profile(t=np.array([0.0, 300.0, 600.0]), z=np.array([0.0, -2.0, 0.0]),
    ...     solid=np.array([True, True]))
    >>> worst_sag(step, [600.0], np.zeros_like)
    Sag(start=0.0, at=300.0, end=600.0, gap=2.0, excess=2.0)
    """
    found = [_between_stations(profile, allow)]
    found += [_rolled(profile, length, float(allow(np.array(length)))) for length in lengths]
    sags = [sag for sag in found if sag is not None]
    return max(sags, key=lambda sag: sag.excess, default=None)


def deepest(profile: Profile) -> float:
    """Return the gap under a straightedge as long as the line: no shorter one finds more.

    Parameters
    ----------
    profile
        The line.

    Returns
    -------
    float
        The gap, nought where the line has nothing between two high points. [mm]

    Notes
    -----
    Source: own derivation, ``docs/theory/flatness.md``.

    Examples
    --------
    >>> wave = Profile(t=np.arange(4.0), z=np.array([0.0, -2.0, 1.0, 0.0]), solid=np.ones(3, bool))
    >>> deepest(wave)
    2.5
    """
    *_, gap = _chords(profile)
    return float(gap.max(initial=0.0))


def _on_wall(profile: Profile) -> NDArray[np.bool_]:
    none = np.array([False])
    beside: NDArray[np.bool_] = np.append(profile.solid, none) | np.append(none, profile.solid)
    return beside


@cache
def _triples(count: int) -> NDArray[np.intp]:
    found = np.array(list(combinations(range(count), 3)), dtype=np.intp).reshape(-1, 3).T
    found.setflags(write=False)
    return found


def _chords(profile: Profile) -> tuple[Array, Array, Array, Array]:
    """Every station on the wall under every chord round it: start, at, end, gap."""
    on_wall = _on_wall(profile)
    t, z = profile.t[on_wall], profile.z[on_wall]
    p, v, q = _triples(len(t))
    gap = (z[p] * (t[q] - t[v]) + z[q] * (t[v] - t[p])) / (t[q] - t[p]) - z[v]
    return t[p], t[v], t[q], np.maximum(gap, 0.0)


def _between_stations(profile: Profile, allow: Callable[[Array], Array]) -> Sag | None:
    start, at, end, gap = _chords(profile)
    excess = gap - allow(end - start)
    if not np.isfinite(excess).any():
        return None
    i = int(np.argmax(excess))
    return Sag(
        start=float(start[i]),
        at=float(at[i]),
        end=float(end[i]),
        gap=float(gap[i]),
        excess=float(excess[i]),
    )


def _rolled(profile: Profile, length: float, limit: float) -> Sag | None:
    """Roll a straightedge along a line, resting on both of its ends."""
    t, z = profile.t, profile.z
    if length >= t[-1] - t[0]:
        return None
    starts = np.unique(np.concatenate([t, t - length]))
    starts = starts[(starts >= t[0]) & (starts <= t[-1] - length)]
    apart = np.diff(starts) > SNAP
    low, high = starts[:-1][apart], starts[1:][apart]
    middle = (low + high) / 2
    on_solid = profile.solid[np.searchsorted(t, middle) - 1]
    on_solid &= profile.solid[np.searchsorted(t, middle + length) - 1]
    under = (t >= high[:, None] - SNAP) & (t <= low[:, None] + length + SNAP)
    under &= on_solid[:, None] & _on_wall(profile)
    if not under.any():
        return None
    p = np.stack([low, middle, high])[:, :, None]
    chord = np.interp(p, t, z) * (p + length - t) + np.interp(p + length, t, z) * (t - p)
    first, mid, last = chord / length - z
    # Through three values passes the parabola  first + b u + a u²,  u from 0 to 1.
    a, b = 2 * first - 4 * mid + 2 * last, -3 * first + 4 * mid - last
    top = np.where(a < 0, -b / np.where(a < 0, 2 * a, 1.0), np.where(a + b > 0, 1.0, 0.0))
    u = np.clip(top, 0.0, 1.0)
    gap = np.where(under, first + b * u + a * u**2, -np.inf)
    i, v = np.unravel_index(int(np.argmax(gap)), gap.shape)
    start = float(low[i] + u[i, v] * (high[i] - low[i]))
    deep = max(float(gap[i, v]), 0.0)
    return Sag(start=start, at=float(t[v]), end=start + length, gap=deep, excess=deep - limit)
