"""Where no layout keeps every limit: the smallest change of one limit that lets one through."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.document import Choices
from gaugerod.core.job.materials import Kind, System
from gaugerod.core.job.rates import Looks
from gaugerod.core.setout.blocked import listed
from gaugerod.core.setout.layout import Layout, ShortList
from gaugerod.core.setout.search import set_out
from gaugerod.core.survey.walls import Walls

INCH_STEP = 25.4 / 16
"""Limits in inches are eased by sixteenths. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Eased:
    """A limit eased just enough, and the best layout that it lets through. [mm]."""

    limit: str
    now: float
    to: float
    layout: Layout


def laid_out(walls: Walls, choices: Choices, system: System, looks: Looks) -> ShortList:
    """Find the layouts that keep every hard limit, or say what it would take.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    choices
        What the setter has settled.
    system
        The material, with its limits. [mm]
    looks
        What the eye is worth. [cents]

    Returns
    -------
    ShortList
        As `set_out` gives it.

    Raises
    ------
    LayoutError
        No layout keeps every hard limit; the message names every limit that stands in the
        way, and the smallest change of one that would let a layout through.

    Notes
    -----
    Source: own design, ``docs/theory/set-out.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> found = laid_out(fit_walls(job), job.choices, sample_system(), sample_rates().looks)
    >>> len(found.layouts) > 0
    True
    """
    try:
        return set_out(walls, choices, system, looks)
    except LayoutError as error:
        eased = cheapest(walls, choices, system, looks)
        what = Message("setout.ease-none") if eased is None else _say(eased)
        raise LayoutError(Message("setout.eased", none=error.message, eased=what)) from error


def cheapest(walls: Walls, choices: Choices, system: System, looks: Looks) -> Eased | None:
    """Find the smallest change of one limit that lets a layout through.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    choices
        What the setter has settled.
    system
        The material, with its limits. [mm]
    looks
        What the eye is worth. [cents]

    Returns
    -------
    Eased or None
        The limit, what it is and what it would have to be, and the best layout then; none
        where no limit eased alone is enough. [mm]

    Notes
    -----
    A limit that is eased lets through all that it let through before, so for each the change
    is found by halving, in sixteenths of an inch or in millimetres as the material is
    written. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> low = job.choices.model_copy(update={"first_height": 45.0})
    >>> eased = cheapest(fit_walls(job), low, sample_system(), sample_rates().looks)
    >>> eased.limit, eased.now - eased.to < 20
    ('under-least', True)
    """

    def best(other: System) -> Layout | None:
        try:
            return set_out(walls, choices, other, looks).layouts[0]
        except LayoutError:
            return None

    return min(_each(system, best), key=lambda eased: eased.now - eased.to, default=None)


def _each(system: System, best: Callable[[System], Layout | None]) -> Iterator[Eased]:
    """Yield each limit that is enough alone, eased by the fewest steps."""
    step = INCH_STEP if system.unit == "in" else 1.0
    for limit, (part, name) in _LIMITS.items():
        if limit not in _BROKEN_BY[system.kind]:
            continue
        now: float = getattr(getattr(system, part), name)
        # A least piece of nothing is no limit at all: one step is left of it.
        most = int((now + SNAP) / step) - (limit == "under-least")
        few, layout = 0, best(_eased(system, part, name, now - most * step)) if most > 0 else None
        while layout is not None and most - few > 1:
            half = (few + most) // 2
            found = best(_eased(system, part, name, now - half * step))
            few, most, layout = (half, most, layout) if found is None else (few, half, found)
        if layout is not None:
            yield Eased(limit=limit, now=now, to=now - most * step, layout=layout)


_LIMITS: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "under-least": ("cutting", "least"),
        "groove-left": ("cutting", "groove_off"),
        "joint-at-hole": ("gaps", "hole_clear"),
    }
)
"""Where the material has the length that each limit goes by."""
_BROKEN_BY: Mapping[Kind, frozenset[str]] = MappingProxyType(
    {
        "keyed": frozenset(_LIMITS),
        "grouted": frozenset({"under-least"}),
        "sheet": frozenset({"under-least", "joint-at-hole"}),
    }
)
"""Those that a kind of material can break."""


def _eased(system: System, part: str, name: str, value: float) -> System:
    table = getattr(system, part).model_copy(update={name: max(value, 0.0)})
    return system.model_copy(update={part: table})


_LAID = frozenset(
    {"setout.first", "setout.row", "setout.wall", "setout.wall-whole", "setout.struck"}
)
"""Reasons that say how a layout lies."""


def _say(eased: Eased) -> Message:
    told = [m for m in eased.layout.reasons if m.key in _LAID]
    return Message(
        f"setout.ease-{eased.limit}",
        now=Length(eased.now),
        to=Length(eased.to),
        layout=listed(told, "setout.then"),
    )
