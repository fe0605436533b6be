"""The search: one first-course height for all walls, a phase for each."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.geometry import SNAP, bounds_of
from gaugerod.core.base.messages import Length, Message, Value
from gaugerod.core.job.bonds import pattern_bond
from gaugerod.core.job.document import Choices
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import Looks
from gaugerod.core.setout.best_phases import Scored, best_phases, scored
from gaugerod.core.setout.blocked import blocked
from gaugerod.core.setout.events import phases
from gaugerod.core.setout.finish import order_reasons, signed_for
from gaugerod.core.setout.layout import (
    Layout,
    ShortList,
    WallLayout,
    lattice_on,
)
from gaugerod.core.setout.pairs import Row, modules_for, paired_phases
from gaugerod.core.setout.score import hopeless, scores_of
from gaugerod.core.setout.scores import Scores
from gaugerod.core.setout.shared_fields import SharedFields
from gaugerod.core.setout.strips import Batch
from gaugerod.core.setout.trial import Trial, trials
from gaugerod.core.setout.turned import Room, set_out_turned
from gaugerod.core.setout.variants import Variant, variants
from gaugerod.core.setout.wrap import offsets
from gaugerod.core.survey.walls import Walls

FOR_LOOKS = 6
"""Layouts of each turn, bond and finish that are kept for their looks."""
FOR_CUTS = 4
"""And so many more for their few cuts."""
FOR_MODULES = 3
"""And so many for the few modules that they take, ends of two walls out of one."""


def set_out(
    walls: Walls,
    choices: Choices,
    system: System,
    looks: Looks,
    *,
    allowed: frozenset[str] = frozenset(),
) -> ShortList:
    """Find the layouts that keep every hard limit, best looks first.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    choices
        What the setter has settled: turn, bond, order, height, centring, finish; what he
        leaves open is searched.
    system
        The material, with its limits. [mm]
    looks
        What the eye is worth. [cents]
    allowed
        Limits that may be broken, beside those that the choices set aside.

    Returns
    -------
    ShortList
        At most `FOR_LOOKS`, `FOR_CUTS` and `FOR_MODULES` layouts of every turn, bond, finish
        and way round the corners, with how many were tried and why others fell out.

    Raises
    ------
    LayoutError
        No layout keeps every hard limit; the message names every limit that stopped some.

    Notes
    -----
    Walls are independent once the first-course height is given: one height serves all,
    every wall then takes its own best phases. The short list of choices that leave more open
    holds that of choices that leave less. Source: own design, ``docs/theory/set-out.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> found = set_out(fit_walls(job), job.choices, sample_system(), sample_rates().looks)
    >>> len(found.layouts) > 0
    True
    """
    kept: list[_Combo] = []
    refused: Counter[str] = Counter()
    tried = 0
    allowed |= frozenset(override.limit for override in choices.override)
    if bond := pattern_bond(choices.bond):
        return set_out_turned(
            Room(
                walls=walls,
                choices=choices,
                system=system,
                looks=looks,
                bond=bond,
                allowed=allowed,
            )
        )
    for bonds in _bonds(choices, system):
        found: list[list[_Combo]] = [[] for _ in bonds]
        for same_height in trials(walls, choices, system, looks, bonds, allowed=allowed):
            tried += _try(same_height, found, refused)
        for combos in found:
            best = _best(combos)
            kept += best + _paired(best)
    if not kept:
        raise LayoutError(blocked(refused, tried))
    shared = SharedFields()
    return ShortList(
        layouts=tuple(_layout(combo, shared) for combo in sorted(kept, key=_by_looks)),
        tried=tried,
        refused=tuple(sorted(refused.items())),
    )


def _bonds(choices: Choices, system: System) -> Iterator[list[Variant]]:
    """Yield the variants that differ in their bond only, together."""
    same: dict[Variant, list[Variant]] = {}
    for variant in variants(choices, system):
        same.setdefault(replace(variant, bond="", share=0.0), []).append(variant)
    yield from same.values()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Combo:
    """One first-course height and a phase for each wall."""

    trial: Trial
    walls: tuple[Scored, ...]

    @property
    def looks(self) -> int:
        """Price of what the eye minds on all walls. [cents]."""
        return sum(wall.score.looks for wall in self.walls)

    @property
    def cuts(self) -> int:
        """End pieces cut to width on all walls."""
        return sum(wall.score.cuts for wall in self.walls)


def _try(trials: Sequence[Trial], found: Sequence[list[_Combo]], refused: Counter[str]) -> int:
    """Add to what was found for each bond; return how many places were tried."""
    if trials[0].variant.runs_on:
        rows = [_running_on(trial, refused) for trial in trials]
    else:
        rows = list(_afresh(trials, refused))
    for combos, (more, _) in zip(found, rows, strict=True):
        combos.extend(more)
    return sum(tried for _, tried in rows)


def _afresh(trials: Sequence[Trial], refused: Counter[str]) -> Iterator[tuple[list[_Combo], int]]:
    """Yield, for each bond, combinations of what suits each wall best, and how many were tried."""
    first = trials[0]
    shifts = [trial.lattice.row_shift for trial in trials]
    # Every wall, even when one has no place: what is told of the limits is of them all.
    walls = [best_phases(bare, shifts, first.choices, refused) for bare in first.bares()]
    for trial, row in zip(trials, zip(*walls, strict=True), strict=True):
        combos = product(*(best.kept for best in row))
        tried = sum(best.tried for best in row)
        yield [_Combo(trial=trial, walls=combo) for combo in combos], tried


def _running_on(trial: Trial, refused: Counter[str]) -> tuple[list[_Combo], int]:
    """Return what suits some wall, run on to all the others, and how many were tried."""
    lattice, bares = trial.lattice, trial.bares()
    count = len(bares)
    broken = {limit for bare in bares for limit in hopeless(bare)[0]}
    if broken:
        refused.update(broken)
        return [], 1
    offs = offsets(bares)
    tries = _run_on(bares, offs, trial.choices)
    if not tries:
        refused["not-run-on"] += 1
        return [], 1
    rows = []
    for place, (bare, off) in enumerate(zip(bares, offs, strict=True)):
        batch = bare.at([(x + off) % lattice.pitch[0] for _, _, x in tries])
        names = [name if own == place else "run-on" for own, name, _ in tries]
        scores = scores_of(batch)
        refused.update(scores.refused)
        rows.append((bare, list(zip(names, batch.phases.tolist(), strict=True)), scores))
    legal = np.flatnonzero(np.all([scores.legal for _, _, scores in rows], axis=0)).tolist()
    combos = [tuple(scored(bare, tried[i], found, i) for bare, tried, found in rows) for i in legal]
    return [_Combo(trial=trial, walls=walls) for walls in combos], len(tries) * count


def _run_on(
    bares: Sequence[Batch], offs: Sequence[float], choices: Choices
) -> list[tuple[int, str, float]]:
    """Return the phases of the first wall at which something suits some wall, and which. [mm]."""
    pitch = bares[0].lattice.pitch[0]
    wanted = {name: place for place, name in enumerate(bare.case.wall.name for bare in bares)}
    settled = [place for name, place in wanted.items() if name in {*choices.centre, *choices.phase}]
    tries = {place: phases(bares[place], choices) for place in settled or wanted.values()}

    def suits(place: int, x: float) -> bool:
        off = (abs(x + offs[place] - phase) % pitch for _, phase in tries[place])
        return any(min(d, pitch - d) < SNAP for d in off)

    found = [(place, name, x - offs[place]) for place in tries for name, x in tries[place]]
    return [one for one in found if all(suits(place, one[2]) for place in settled)]


def _by_looks(combo: _Combo) -> tuple[int, float, int]:
    # Of layouts that look alike to the dollar, the taller first course is the better rip.
    return combo.looks // 100, -round(combo.trial.height[1], 3), combo.looks


def _best(found: list[_Combo]) -> list[_Combo]:
    """Return the combinations to be weighed: the best looking, then those with few cuts."""
    found.sort(key=_by_looks)
    sawn = sorted(found[FOR_LOOKS:], key=lambda combo: (combo.cuts, combo.looks))
    return [*found[:FOR_LOOKS], *sawn[:FOR_CUTS]]


def _paired(best: list[_Combo]) -> list[_Combo]:
    """Return the best with one wall moved until an end of it shares a module with another's."""
    moves = [
        (combo, place, starts)
        for combo in best
        if not combo.trial.variant.runs_on
        for place in range(len(combo.walls))
        if (starts := _shared_ends(combo, place))
    ]
    moved = {
        (id(combo.trial), *(round(wall.phase, 3) for wall in combo.walls)): combo
        for combo in _moved(moves)
    }
    few = sorted(moved.values(), key=lambda combo: (_modules(combo), combo.looks))
    return few[:FOR_MODULES]


def _shared_ends(combo: _Combo, place: int) -> list[float]:
    """Return the starts that let an end of a wall share a module with another wall. [mm]."""
    wall, choices = combo.walls[place], combo.trial.choices
    if wall.batch.case.wall.name in {*choices.centre, *choices.phase}:
        return []
    pitch = wall.batch.lattice.pitch[0]
    others = [_row(other) for other in combo.walls if other is not wall]
    return [x % pitch for x in paired_phases(wall.batch, others)]


def _moved(moves: Sequence[tuple[_Combo, int, list[float]]]) -> Iterator[_Combo]:
    """Yield combinations with one wall started elsewhere, where these keep every limit."""
    same: dict[int, list[float]] = {}
    for combo, place, starts in moves:
        same.setdefault(id(combo.walls[place].batch), []).extend(starts)
    scores: dict[int, Scores] = {}
    first: Counter[int] = Counter()
    for combo, place, starts in moves:
        batch = combo.walls[place].batch
        if id(batch) not in scores:
            scores[id(batch)] = scores_of(batch.at(same[id(batch)]))
        found, begin = scores[id(batch)], first[id(batch)]
        first[id(batch)] += len(starts)
        for i, phase in enumerate(starts, begin):
            if found.legal[i]:
                one = scored(batch, ("pair", phase), found, i)
                yield replace(combo, walls=(*combo.walls[:place], one, *combo.walls[place + 1 :]))


def _row(wall: Scored) -> Row:
    batch, (left, right) = wall.batch, wall.score.ends
    lefts, rights = batch.sides[0]
    width = min(rights) - max(lefts)
    return Row(courses=len(batch.courses), width=width, left=left, right=right)


def _modules(combo: _Combo) -> int:
    lattice, kerf = combo.trial.lattice, combo.trial.system.cutting.kerf
    rows = [_row(wall) for wall in combo.walls]
    return modules_for(rows, pitch=lattice.pitch[0], face=lattice.face[0], kerf=kerf)


def _layout(combo: _Combo, shared: SharedFields) -> Layout:
    trial, lattice = combo.trial, combo.trial.lattice
    aside = {limit for wall in combo.walls for limit in wall.score.set_aside}
    minded: Counter[str] = Counter()
    for wall in combo.walls:
        minded.update(wall.faults)
    layout = Layout(
        product=trial.system.id,
        turn=trial.variant.turn,
        bond=trial.variant.bond,
        face=lattice.face,
        pitch=lattice.pitch,
        first_course=lattice.first_course,
        top=trial.top(),
        order=trial.order,
        walls=tuple(_wall_layout(wall, shared) for wall in combo.walls),
        looks=combo.looks,
        set_aside=tuple(sorted(aside)),
        faults=tuple(minded.most_common()),
        reasons=(),
    )
    return replace(layout, reasons=_reasons(trial, layout))


def _wall_layout(wall: Scored, shared: SharedFields) -> WallLayout:
    case = wall.batch.case
    lattice = replace(wall.batch.lattice, phase=wall.phase)
    return WallLayout(
        name=case.wall.name,
        phase=wall.phase,
        row_shift=lattice.row_shift,
        field=shared.field(case, lattice),
        centring=wall.centring,
        ends=wall.score.ends,
        top=None if case.wall.finish is None else case.top,
    )


def _reasons(trial: Trial, layout: Layout) -> tuple[Message, ...]:
    why, height = trial.height
    low: dict[str, Value] = {"wall": trial.low[0], "down": Length(-trial.low[1])}
    # A sheet may reach beyond the finish line: what is left of it is told.
    left = layout.top - trial.low[1] - trial.system.gaps.deck
    why = "one-sheet" if trial.system.kind == "sheet" and height > left - SNAP else why
    first = Message(
        "setout.first", height=Length(min(height, left)), why=Message(f"setout.height-{why}")
    )
    walls = (_wall_reason(trial.system, layout, wall) for wall in layout.walls)
    signed = signed_for(trial.choices, layout.set_aside)
    order = order_reasons(layout, trial.low[1])
    return (*signed, Message("setout.low", **low), first, *order, *walls)


def _wall_reason(system: System, layout: Layout, wall: WallLayout) -> Message:
    box, lattice = bounds_of(wall.field.gross.rings), lattice_on(layout, wall)
    courses = lattice.courses(bottom=box.bottom, top=box.top)
    wide = max(len(lattice.numbers(course, left=box.left, right=box.right)) for course in courses)
    if system.kind == "sheet" and wide == 1:
        return Message("setout.wall-whole", wall=wall.name, width=Length(wall.ends[0]))
    return Message(
        "setout.wall",
        wall=wall.name,
        centring=Message(f"setout.by-{wall.centring}"),
        left=Length(wall.ends[0]),
        right=Length(wall.ends[1]),
    )
