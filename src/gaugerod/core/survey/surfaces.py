"""From the surface a reading was taken to, to the face that the lining is glued to."""

from typing import Literal, TypeAlias

from gaugerod.core.job.document import Survey, Wall
from gaugerod.core.job.readings import Surface
from gaugerod.core.survey.model import Seat

End: TypeAlias = Literal["open", "inside", "outside"]


def ends_of(walls: tuple[Wall, ...], place: int) -> tuple[End, End]:
    """Return what the two ends of a wall come to.

    Parameters
    ----------
    walls
        The walls of the job from left to right.
    place
        Number of the wall, from 0.

    Returns
    -------
    tuple of str
        For left and right, a corner with the neighbour there, or an open end.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> ends_of(sample_job().wall, 0)
    ('open', 'inside')
    """
    left: End = walls[place - 1].corner if place > 0 else "open"
    right: End = walls[place].corner if place < len(walls) - 1 else "open"
    return left, right


def stand_out(surface: Surface, survey: Survey) -> float | None:
    """Return how far a surface stands out from the bonding face.

    Parameters
    ----------
    surface
        The surface a reading was taken to.
    survey
        The survey, with the thickness of each layer where it was given. [mm]

    Returns
    -------
    float or None
        Distance into the room, negative behind the bonding face; none where a layer between
        them has no thickness given. [mm]

    Notes
    -----
    From stud outwards: backer, old tile with its bed, new lining with its bed. The bonding
    face is the backer, or old tile that stays. Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.document import Layers
    >>> survey = Survey(surface="stud", layers=Layers(backer=12.7))
    >>> stand_out("stud", survey)
    -12.7
    """
    layers = survey.layers
    outward: dict[Surface, float | None] = {
        "backer": layers.backer,
        "old tile": layers.old_tile,
    }
    order: tuple[Surface, ...] = ("stud", "backer", "old tile")
    if surface == "new face":
        return layers.lining
    start, end = order.index(survey.bonding), order.index(surface)
    between = [outward[name] for name in order[min(start, end) + 1 : max(start, end) + 1]]
    if None in between:
        return None
    total = sum(thickness for thickness in between if thickness is not None)
    return total if end > start else -total


_INWARDS: dict[End, float] = {"open": 0.0, "inside": 1.0, "outside": -1.0}


def seat_of(out: float, ends: tuple[End, End]) -> Seat:
    """Return the seat of a reading on its wall.

    Parameters
    ----------
    out
        How far its surface stands out from the bonding face. [mm]
    ends
        What its wall comes to at left and right.

    Returns
    -------
    Seat
        What to allow for. [mm]

    Notes
    -----
    Every wall carries the same layers, so an inside corner moves in by as much as a face
    stands out, and an outside corner moves out by as much. Source: own derivation.

    Examples
    --------
    >>> seat_of(9.5, ("open", "inside"))
    Seat(out=9.5, left=0.0, right=9.5)
    """
    left, right = (_INWARDS[end] * out for end in ends)
    return Seat(out=out, left=left, right=right)
