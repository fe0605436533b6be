"""The fitted walls made again with one parameter of the fit moved by a hair."""

from collections.abc import Iterator, Sequence

from gaugerod.core.job.document import Wall
from gaugerod.core.survey.model import Bends
from gaugerod.core.survey.outline import State, shaped
from gaugerod.core.survey.walls import FittedWall, Moved

STEP = 1e-4
"""How far a parameter is moved. [mm, or mm per mm for slopes]

Slopes act over a metre or so, lengths by themselves: either way the walls move by far more
than floating-point noise, and so little that nothing curves.
"""


def moved_walls(
    walls: Sequence[Wall], fitted: Sequence[FittedWall], state: State, bends: Bends
) -> Iterator[Moved]:
    """Yield every wall that changes when a parameter moves, one parameter at a time.

    Parameters
    ----------
    walls
        The walls in the job.
    fitted
        The same walls as fitted. [mm]
    state
        Value of every unknown. [mm, or mm per mm for slopes]
    bends
        Where lines are not straight.

    Yields
    ------
    Moved
        The wall with the parameter moved by `STEP`, in the order of the unknowns. [mm]

    Notes
    -----
    A parameter that changes nothing of a wall is passed over, so that a corner moves the two
    walls that meet in it and no other. Source: own derivation, a forward difference.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> walls = fit_walls(sample_job())
    >>> corner = walls.parameters.index("deck 1")
    >>> [moved.place for moved in walls.moved if moved.parameter == corner]
    [0, 1]
    """
    for parameter, name in enumerate(state):
        there = {**state, name: state[name] + STEP}
        for place, wall in enumerate(walls):
            made = shaped(wall, place, there, bends=bends)
            if made != fitted[place]:
                yield Moved(parameter=parameter, place=place, wall=made)
