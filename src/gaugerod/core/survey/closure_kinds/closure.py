"""What a closure gives: by how much a sum of readings misses, and whether that is too much."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from gaugerod.core.base.messages import Length, Message
from gaugerod.core.survey.closure_kinds.figures import Figure

Kind: TypeAlias = Literal[
    "parts",
    "both ends",
    "opening width",
    "opening height",
    "leans",
    "bow",
    "diagonals",
    "diagonal",
    "corner",
    "round",
    "height",
    "repeat",
    "plumb line",
]
Verdict: TypeAlias = Literal["go", "look again", "re-measure"]

LOOK_AGAIN = 2.0
"""A misclosure of this many sigmas is chance once in twenty."""
MEASURE_AGAIN = 3.0
"""A misclosure of more sigmas than this is chance once in 370."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Closure:
    """A sum of readings that must come out. [mm].

    `readings` are the names of those that can be at fault, `misclosure` is what the sum misses
    by, `sigma` how far it may miss by chance, `ratio` how many sigmas it misses by, nought or
    more.
    """

    kind: Kind
    walls: tuple[str, ...]
    readings: tuple[str, ...]
    misclosure: float
    sigma: float
    ratio: float
    verdict: Verdict
    message: Message


def close(
    kind: Kind, walls: tuple[str, ...], miss: Figure, *, what: Message, hint: Message
) -> Closure:
    """Judge what a sum of readings misses by.

    Parameters
    ----------
    kind
        Which closure it is.
    walls
        Names of the walls whose readings it takes.
    miss
        What the sum misses by; it rests on at least one reading. [mm]
    what
        The sum in words, with its numbers.
    hint
        What would explain a miss.

    Returns
    -------
    Closure
        The closure. [mm]

    Notes
    -----
    Look again from two sigmas on, measure again beyond three. Source: common practice, no
    source.

    Examples
    --------
    Four readings to 1 mm that miss by 6.5 mm:

    >>> from gaugerod.core.survey.closure_kinds.figures import mean_of
    >>> one, *others = (mean_of(name, (v,), (1.0,)) for name, v in zip("abcd", (6.5, 0, 0, 0)))
    >>> miss = one + others[0] + others[1] - others[2]
    >>> close("parts", ("B",), miss, what=Message("what"), hint=Message("hint")).verdict
    're-measure'
    """
    sigma = miss.sigma
    ratio = abs(miss.value) / sigma
    by = Length(abs(miss.value))
    verdict: Verdict
    if ratio < LOOK_AGAIN:
        verdict, said = "go", Message("closure.closes", what=what, by=by)
    elif ratio <= MEASURE_AGAIN:
        verdict = "look again"
        said = Message("closure.look-again", what=what, by=by, ratio=ratio, hint=hint)
    else:
        verdict = "re-measure"
        said = Message("closure.re-measure", what=what, by=by, ratio=ratio, hint=hint)
    return Closure(
        kind=kind,
        walls=walls,
        readings=miss.ids,
        misclosure=miss.value,
        sigma=sigma,
        ratio=ratio,
        verdict=verdict,
        message=said,
    )
