"""The pattern of a bond that is not laid in level courses."""

from gaugerod.core.job.bonds import DIAGONAL, HERRINGBONE, ratio
from gaugerod.core.job.document import PatternBond
from gaugerod.core.job.fields import Turn
from gaugerod.core.job.materials import System
from gaugerod.core.setout.pattern import Pattern, herringbone, running, turned


def pattern_of(system: System, bond: PatternBond, turn: Turn) -> Pattern:
    """Return the pattern of a bond, its origin at nought.

    Parameters
    ----------
    system
        The material, one that the bond does not refuse. [mm]
    bond
        One of the diagonal bonds or of the herringbones.
    turn
        ``standing`` turns the whole pattern by a further quarter.

    Returns
    -------
    Pattern
        The pattern. [mm]

    Notes
    -----
    Source: trade definitions.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_tile
    >>> [unit.turn for unit in pattern_of(sample_tile(), "diagonal herringbone", "lying").cell]
    [45, 315]
    """
    face, joint = system.face, system.joint[0]
    n = ratio(face=face, joint=joint)
    if bond in HERRINGBONE and n:
        upright = herringbone(face=face, joint=joint, n=n)
    else:
        shift = (face[0] + joint) / 2 if bond == "diagonal half" else 0.0
        upright = running(face=face, joint=joint, shift=shift)
    return turned(upright, 45 * (bond in DIAGONAL) + 90 * (turn == "standing"))
