"""From the surface a reading was taken to, to the face that the lining is glued to."""

from gaugerod.core.job.document import Survey
from gaugerod.core.job.readings import Surface
from gaugerod.core.survey.model import Seat


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


def seat_of(out: float, *, place: int, walls: int) -> Seat:
    """Return the seat of a reading on its wall.

    Parameters
    ----------
    out
        How far its surface stands out from the bonding face. [mm]
    place
        Number of the wall from the left, from 0.
    walls
        Number of walls.

    Returns
    -------
    Seat
        What to allow for. [mm]

    Notes
    -----
    Every wall carries the same layers, so a corner moves in by as much as a face stands
    out. Source: own derivation.

    Examples
    --------
    >>> seat_of(9.5, place=0, walls=3)
    Seat(out=9.5, left=0.0, right=9.5)
    """
    return Seat(
        out=out,
        left=out if place > 0 else 0.0,
        right=out if place < walls - 1 else 0.0,
    )
