"""A pattern that runs on through an inside corner."""

from gaugerod.core.base.geometry import SNAP


def after_corner(*, pitch: float, last: float, joint: float, lap: float) -> float:
    """Return where the first joint falls on the next wall, if the pattern runs on.

    Parameters
    ----------
    pitch
        Joint to joint, > 0. [mm]
    last
        What shows of the last module before the corner, > 0 and at most a pitch. [mm]
    joint
        Joint in the corner, >= 0. [mm]
    lap
        Thickness of the lining, with its bed, that laps the corner; with the joint less than
        a pitch. [mm]

    Returns
    -------
    float
        From the face before the corner to the first joint: the first piece, and with it the
        grout joint beyond it where there is one. More than nought, at most a pitch. [mm]

    Notes
    -----
    ``pitch - last - (joint + lap)``. Where nothing or less is left, the corner has swallowed
    the rest of that module: a pitch is added and the next one comes out of the corner, short
    by what it has lost there. Source: worked example of the trade, common practice, no source;
    the added pitch is own derivation, ``docs/theory/set-out.md``.

    Examples
    --------
    A module of 24 in of which 14-7/8 show, joint 1/8, lap 7/16: 8-9/16 in.

    >>> after_corner(pitch=24, last=14.875, joint=0.125, lap=0.4375)
    8.5625
    """
    rest = pitch - last - (joint + lap)
    return rest if rest > SNAP else rest + pitch
