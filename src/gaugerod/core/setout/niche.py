"""The room that a stud bay leaves for a niche once it is lined."""

from gaugerod.core.job.materials import System


def clear_width(system: System, *, bay: float, board: float, shim: float) -> float:
    """Return the clear width of a lined niche in a stud bay.

    Parameters
    ----------
    system
        The lining, for its thickness and bed. [mm]
    bay
        From stud to stud. [mm]
    board
        Thickness of the backer on each side, >= 0. [mm]
    shim
        What it takes to bring each side plumb, >= 0. [mm]

    Returns
    -------
    float
        From finished face to finished face; nought or less where no niche fits. [mm]

    Notes
    -----
    ``bay - 2 * (board + thickness + bed + shim)``. Source: worked example of the trade, common
    practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> clear_width(sample_system(), bay=368.3, board=12.7, shim=1.5875)
    317.5
    """
    return bay - 2 * (board + system.thickness + system.bed + shim)
