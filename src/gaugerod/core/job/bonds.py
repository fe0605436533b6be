"""Bonds: which of them leave the level courses, and which materials they suit."""

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.document import PatternBond
from gaugerod.core.job.materials import System

DIAGONAL: frozenset[PatternBond] = frozenset({"diagonal", "diagonal half", "diagonal herringbone"})
"""Bonds whose joints run at 45 degrees."""
HERRINGBONE: frozenset[PatternBond] = frozenset({"herringbone", "diagonal herringbone"})
"""Bonds of lying and standing modules together."""


def pattern_bond(bond: object) -> PatternBond | None:
    """Return a bond that is not laid in level courses; nothing where it is.

    Parameters
    ----------
    bond
        A bond, a share of the pitch, or ``any``. [1]

    Returns
    -------
    str or None
        The same bond.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> pattern_bond("herringbone"), pattern_bond(0.5)
    ('herringbone', None)
    """
    return next((one for one in DIAGONAL | HERRINGBONE if one == bond), None)


def ratio(*, face: tuple[float, float], joint: float) -> int | None:
    """Return how many short sides with their joints go into a long one.

    Parameters
    ----------
    face
        Width and height of a module. [mm]
    joint
        Joint all round. [mm]

    Returns
    -------
    int or None
        The whole number, at least 2; nothing where it is not whole.

    Notes
    -----
    ``long + joint = n (short + joint)``: then every joint of a herringbone is as wide.
    Source: own derivation.

    Examples
    --------
    >>> ratio(face=(597.0, 297.0), joint=3.0), ratio(face=(600.0, 300.0), joint=3.0)
    (2, None)
    """
    short, long = sorted(side + joint for side in face)
    n = round(long / short)
    return n if n > 1 and abs(long - n * short) <= n * SNAP else None


def refused(system: System, bond: PatternBond) -> Message | None:
    """Say why a material can't be laid in a bond.

    Parameters
    ----------
    system
        The material. [mm]
    bond
        The bond.

    Returns
    -------
    Message or None
        The reason, with what would do; nothing where it can.

    Notes
    -----
    A key locks in level courses of its own, and sheets hang plumb. Around a turned module
    every joint meets every other, so they must be as wide; a herringbone closes only where
    the long side is a whole number of short ones. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> refused(sample_system(), "herringbone").key
    'job.bond-keyed'
    """
    if system.kind != "grouted":
        return Message(f"job.bond-{system.kind}", read=bond)
    (jx, jy), (w, h) = system.joint, system.face
    if abs(jx - jy) > SNAP:
        return Message("job.bond-joints", read=bond, across=Length(jx), up=Length(jy))
    if bond in HERRINGBONE and ratio(face=system.face, joint=jx) is None:
        short, long = sorted((w, h))
        return Message(
            "job.bond-ratio", read=bond, long=Length(long), short=Length(short), joint=Length(jx)
        )
    return None
