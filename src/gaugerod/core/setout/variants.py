"""What the choices leave open: turns, bonds and finishes to be searched."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from gaugerod.core.job.document import Bond, Choices
from gaugerod.core.job.fields import Turn
from gaugerod.core.job.materials import System

Finish: TypeAlias = Literal["line", "ceiling"] | float

SHARES: dict[Bond, float] = {"stack": 0.0, "half": 1 / 2, "third": 1 / 3}
"""Share of the pitch by which each course is shifted. [1]"""
SAME_SHARE = 1e-4
"""Shares nearer than this are one: a third may be written 0.3333. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Variant:
    """One way to hang the modules; a negative `share` of the pitch steps to the left. [1].

    Where it `runs_on`, courses run on through the corners; else each wall is set out afresh.
    """

    turn: Turn
    bond: str
    share: float
    finish: Finish
    runs_on: bool = False


def variants(choices: Choices, system: System) -> tuple[Variant, ...]:
    """Return every way to hang the modules that the choices leave open.

    Parameters
    ----------
    choices
        The setter's choices.
    system
        The material, for the turns it allows.

    Returns
    -------
    tuple of Variant
        Turns, bonds, steps, finishes and corners in every combination, each pattern once.

    Notes
    -----
    A stack has no step, and half a pitch to the left is half a pitch to the right. Sheets are
    shifted only where that is asked for. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> open_ = sample_job().choices.model_copy(update={"bond": "any"})
    >>> [(one.bond, round(one.share, 2)) for one in variants(open_, sample_system())]
    [('stack', 0.0), ('half', 0.5), ('third', 0.33), ('third', -0.33)]
    """
    return tuple(
        Variant(turn=turn, bond=bond, share=share, finish=finish, runs_on=runs_on)
        for turn in turns(choices, system)
        for bond, share in _bonds(choices, system)
        for finish in finishes(choices)
        for runs_on in _CORNERS[choices.corners]
    )


_CORNERS = {"afresh": (False,), "run on": (True,), "any": (False, True)}


def turns(choices: Choices, system: System) -> tuple[Turn, ...]:
    """Return the turns that the choices leave open.

    Parameters
    ----------
    choices
        The setter's choices.
    system
        The material, for the turns it allows.

    Returns
    -------
    tuple
        One where it is settled. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> turns(sample_job().choices, sample_system())
    ('lying',)
    """
    return system.turns if choices.turn == "any" else (choices.turn,)


def finishes(choices: Choices) -> tuple[Finish, ...]:
    """Return the finishes that the choices leave open.

    Parameters
    ----------
    choices
        The setter's choices.

    Returns
    -------
    tuple
        One where it is settled. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> finishes(sample_job().choices)
    ('line',)
    """
    return ("line", "ceiling") if choices.finish == "any" else (choices.finish,)


def _bonds(choices: Choices, system: System) -> Iterator[tuple[str, float]]:
    asked = "stack" if (choices.bond, system.kind) == ("any", "sheet") else choices.bond
    shares: dict[str, float] = {
        name: share for name, share in SHARES.items() if asked in {name, "any"}
    }
    if not isinstance(choices.bond, str):
        shares = {f"{choices.bond:g}": choices.bond}
    for bond, share in shares.items():
        if choices.step != "left" or share in {0.0, 0.5}:
            yield bond, share
        if choices.step != "right" and share not in {0.0, 0.5}:
            yield bond, -share
