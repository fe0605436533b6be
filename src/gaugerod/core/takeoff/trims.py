"""Trims from stock lengths: mitres added, long runs jointed, and the fewest lengths."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from math import prod
from typing import TypeAlias, get_args

from gaugerod.core.base.errors import MaterialError
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.cutting.bars import GRID, GUARD, Bar, BarPlan, fewest_bars
from gaugerod.core.cutting.run_joints import joint_plans
from gaugerod.core.job.materials import System, Trim
from gaugerod.core.takeoff.order import End, TrimCount, TrimCut, TrimRun, TrimStock

ENDS: tuple[End, ...] = get_args(End)
MOST_TRIES = 27
"""So many ways to joint the long runs of one trim are tried: all three for three of them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimPlan:
    """The lengths of one trim, each with what is cut from it, and how few could do."""

    lengths: tuple[TrimStock, ...]
    count: TrimCount


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """A piece to cut: of which run, which part of it, how long. [mm]."""

    run: TrimRun
    part: int
    parts: int
    length: float


Parts: TypeAlias = tuple[_Part, ...]


def plan_trim(trim: Trim, runs: Sequence[TrimRun], system: System) -> TrimPlan:
    """Cut all runs of one trim from the fewest stock lengths.

    Parameters
    ----------
    trim
        The trim: stock length, mitre, where joints may be. [mm]
    runs
        What it is wanted for; a run of no length is none. [mm]
    system
        The material, for its kerf and its unit. [mm]

    Returns
    -------
    TrimPlan
        Stock lengths with their pieces in the order they are cut. [mm]

    Raises
    ------
    MaterialError
        A run is longer than the stock, and a joint may be nowhere that would help.

    Notes
    -----
    A mitred end adds its mitre: the longer side is what is cut. A run longer than the stock
    gets the fewest joints, even; or with the rest at one of its ends where that saves a
    length. The count is proven for the joints as they lie. Source: own derivation; that
    joints keep off the ends of a run, holes and openings is common practice, no source.

    Examples
    --------
    Two mitred ends of 10 make 2390 into 2410, which is too long for stock of 2400.

    >>> from gaugerod.core.job.sample import sample_system
    >>> system = sample_system()
    >>> top = system.trim[1].model_copy(update={"mitre": 10.0})
    >>> run = TrimRun(wall="B", place="top", length=2390.0, mitred=("start", "end"))
    >>> plan = plan_trim(top, [run], system)
    >>> [(cut.part, cut.length) for length in plan.lengths for cut in length.runs]
    [(1, 1205.0), (2, 1205.0)]
    """
    ways = [list(_ways(trim, run)) for run in runs if run.length > GUARD]
    plan, parts = min(
        (_cut(trim, parts, system) for parts in _tries(ways)), key=lambda cut: len(cut[0].bars)
    )
    return TrimPlan(
        lengths=tuple(_length(trim, bar, parts) for bar in plan.bars),
        count=TrimCount(
            trim=trim.id,
            lengths=len(plan.bars),
            lower_bound=plan.lower_bound,
            proven=plan.proven,
        ),
    )


def _ways(trim: Trim, run: TrimRun) -> Iterator[Parts]:
    """Yield the parts that a run may be cut as, the best to look at first."""
    start, end = ((trim.mitre or 0.0) * (at in run.mitred) for at in ENDS)
    length = start + run.length + end
    off = trim.no_joint_from_end
    keep_off = [(a + start, b + start) for a, b in run.keep_off]
    keep_off += [(0.0, start + off), (length - end - off, length)]
    plans = joint_plans(length, stock=trim.stock, keep_off=keep_off)
    if not plans:
        raise MaterialError(
            Message(
                "takeoff.no-joint",
                trim=trim.name,
                wall=run.wall,
                place=Message(f"takeoff.at-{run.place}"),
                length=Length(length),
                stock=Length(trim.stock),
            )
        )
    for joints in plans:
        spans = enumerate(pairwise((0.0, *joints, length)), start=1)
        parts = len(joints) + 1
        yield tuple(_Part(run=run, part=n, parts=parts, length=b - a) for n, (a, b) in spans)


def _tries(ways: Sequence[Sequence[Parts]]) -> Iterator[Parts]:
    """Yield all ways to joint all runs; where those are many, each way for all alike."""
    if prod(len(of_run) for of_run in ways) <= MOST_TRIES:
        chosen = list(product(*ways))
    else:
        most = max(len(of_run) for of_run in ways)
        chosen = [tuple(run[min(n, len(run) - 1)] for run in ways) for n in range(most)]
    for way in chosen:
        yield tuple(part for of_run in way for part in of_run)


def _cut(trim: Trim, parts: Parts, system: System) -> tuple[BarPlan, Parts]:
    lengths = [part.length for part in parts]
    kerf, step = system.cutting.kerf, GRID[system.unit]
    return fewest_bars(lengths, stock=trim.stock, kerf=kerf, step=step), parts


def _length(trim: Trim, bar: Bar, parts: Parts) -> TrimStock:
    return TrimStock(
        trim=trim.id,
        stock=trim.stock,
        runs=tuple(_piece(parts[cut.piece], cut.start) for cut in bar.cuts),
        offcut=bar.offcut,
    )


def _piece(part: _Part, start: float) -> TrimCut:
    run = part.run
    ends = {"start": part.part == 1, "end": part.part == part.parts}
    return TrimCut(
        wall=run.wall,
        place=run.place,
        part=part.part,
        parts=part.parts,
        start=start,
        length=part.length,
        mitred=tuple(end for end in run.mitred if ends[end]),
    )
