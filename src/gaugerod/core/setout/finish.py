"""In which order the walls are set, how high the lining goes, and who signed for what."""

from collections.abc import Iterable

from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.document import Choices
from gaugerod.core.job.fields import Turn
from gaugerod.core.job.materials import System
from gaugerod.core.setout.field import low_point
from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.variants import Finish
from gaugerod.core.survey.walls import Walls

RIM = 355.6
"""Height of the deck above the floor where the floor was not read: a low tub rim. [mm]"""


def setting_order(walls: Walls, choices: Choices, system: System, turn: Turn) -> tuple[str, ...]:
    """Return the walls in the order of setting.

    Parameters
    ----------
    walls
        The surveyed alcove.
    choices
        The setter's order, if any.
    system
        The maker's order, if any.
    turn
        How the modules hang.

    Returns
    -------
    tuple of str
        Names of all walls.

    Notes
    -----
    The setter's order wins, then the maker's where it names these walls, then left to
    right. A keyed module that stands is set the other way round, since its tongues then
    point left. Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> setting_order(fit_walls(job), job.choices, sample_system(), "lying")
    ('L', 'B', 'R')
    """
    names = tuple(wall.name for wall in walls.walls)
    if choices.wall_order:
        return choices.wall_order
    order = system.wall_order if set(system.wall_order) == set(names) else names
    turned = system.kind == "keyed" and turn == "standing"
    return tuple(reversed(order)) if turned else order


def finish_line(
    walls: Walls,
    choices: Choices,
    system: System,
    *,
    finish: Finish,
    first_course: float,
    pitch: float,
) -> float:
    """Return the height of the finish line from the datum.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    choices
        The least finish above the floor. [mm]
    system
        The material. [mm]
    finish
        Where to finish: on a line, at the ceiling, or a height above the floor. [mm]
    first_course
        Top of course 1 from the datum. [mm]
    pitch
        Height of a course. [mm]

    Returns
    -------
    float
        Height of the finish line; the ceiling may still stop a field lower. [mm]

    Notes
    -----
    On a line: the lowest course line that is high enough above the floor and above every
    hole. Source: the height itself is the choice ``least_finish`` (IRC R307.2 asks 6 ft).

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> finish_line(fit_walls(job), job.choices, sample_system(), finish="line",
    ...     first_course=-469.7, pitch=300.0)
    730.3
    """
    ceiling = max(y for wall in walls.walls for _, y in wall.ceiling) - system.gaps.ceiling
    if finish == "ceiling":
        return ceiling
    if finish != "line":
        return finish_above(walls, finish)
    needed = least_finish(walls, choices, system)
    courses = -int((first_course - needed + 1e-6) // pitch)
    return min(first_course + max(courses, 0) * pitch, ceiling)


def least_finish(walls: Walls, choices: Choices, system: System) -> float:
    """Return the height that a finish on a course line must reach.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    choices
        The setter's choices, with the lowest finish that the place allows. [mm]
    system
        The material, for the clearance of holes. [mm]

    Returns
    -------
    float
        Its height from the datum. [mm]

    Notes
    -----
    Source: as `finish_line`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> walls = fit_walls(job)
    >>> least_finish(walls, job.choices, sample_system()) >= finish_above(walls, 1828.8)
    True
    """
    clear = system.gaps.hole_clear
    holes = (hole.y + hole.diameter / 2 + clear for wall in walls.walls for hole in wall.holes)
    return max([finish_above(walls, choices.least_finish), *holes])


def order_reasons(layout: Layout, low: float) -> tuple[Message, ...]:
    """Say where the lining stops, in which order the walls are set, and what goes before them.

    Parameters
    ----------
    layout
        The layout. [mm]
    low
        Height of the low point of the deck from the datum. [mm]

    Returns
    -------
    tuple of Message
        One or two sentences.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> [said.key for said in order_reasons(sample_layout()[1], -760.0)]
    ['setout.finish']
    """
    finish = Message(
        "setout.finish",
        line=Length(layout.top),
        above=Length(layout.top - low),
        order=", ".join(layout.order),
    )
    channels = any("trim" in (wall.field.left, wall.field.right) for wall in layout.walls)
    return (finish, Message("setout.channels")) if channels else (finish,)


def finish_above(walls: Walls, height: float) -> float:
    """Return the height from the datum of a finish that is given above the floor.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    height
        Height above the floor. [mm]

    Returns
    -------
    float
        Height from the datum. [mm]

    Notes
    -----
    Where the floor was not read it is taken `RIM` under the low point of the deck. Source:
    own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> round(finish_above(fit_walls(sample_job()), 2000.0), 1)
    860.0
    """
    floor = low_point(walls)[1] - RIM if walls.floor is None else walls.floor
    return floor + height


def signed_for(choices: Choices, set_aside: Iterable[str]) -> tuple[Message, ...]:
    """Say who signed for each limit that a layout breaks.

    Parameters
    ----------
    choices
        The setter's choices, with his overrides.
    set_aside
        Limits that the layout breaks.

    Returns
    -------
    tuple of Message
        One for each override that was used.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> signed_for(sample_job().choices, ())
    ()
    """
    used = frozenset(set_aside)
    return tuple(
        Message(
            "setout.set-aside",
            limit=Message(f"setout.limit-{override.limit}"),
            by=override.by,
            on=f"{override.on:%Y-%m-%d}",
            why=override.why,
        )
        for override in choices.override
        if override.limit in used
    )
