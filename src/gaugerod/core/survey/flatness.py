"""Whether a wall is flat, plumb and level enough for its lining, and what would mend it."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from gaugerod.core.base.lengths import METRIC, Display
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Survey, Wall
from gaugerod.core.job.readings import Depth, Gap, Surface
from gaugerod.core.job.tolerances import Fixing, Tolerance, Tolerances
from gaugerod.core.survey.depths import SurfaceFlatness, surface_flatness
from gaugerod.core.survey.flatness_notes import of_judged, of_shims, of_surface
from gaugerod.core.survey.gaps import gap_departure, short_straightedges
from gaugerod.core.survey.limits import Judged, Verdict, judge, limits_for
from gaugerod.core.survey.shims import ShimSchedule, shim_schedule
from gaugerod.core.survey.spots import spots_of
from gaugerod.core.survey.upright import deck_fall, edge_leans
from gaugerod.core.survey.walls import FittedWall


@dataclass(frozen=True, slots=True, kw_only=True)
class WallFlatness:
    """What the survey says of one wall's flatness, plumb and level. [mm].

    `judged` holds the gaps under straightedges, the edges and the deck; each of `surfaces` what
    the depths on it show. `shims` are for depths that were read on studs.
    """

    wall: str
    verdict: Verdict
    judged: tuple[Judged, ...]
    surfaces: tuple[SurfaceFlatness, ...]
    shims: ShimSchedule | None
    notes: tuple[Message, ...]


def flatness_of(
    wall: Wall,
    fitted: FittedWall,
    *,
    longest_edge: float,
    limits: Tolerances,
    survey: Survey,
    fixing: Fixing,
    region: str = "",
    display: Display = METRIC,
) -> WallFlatness:
    """Judge one wall against the limits for its lining, and say what would mend it.

    Parameters
    ----------
    wall
        The wall in the job, with its readings.
    fitted
        The same wall as the survey found it.
    longest_edge
        Longest edge of the module, > 0. [mm]
    limits
        All tolerances at hand.
    survey
        How the readings were taken, where they do not say.
    fixing
        How the lining is fixed: by beads, in a thin or in a thick bed.
    region
        Place whose standards apply; empty where it is not known, which takes them all.
    display
        The step that shims come in: 1/16 in, or 1 mm.

    Returns
    -------
    WallFlatness
        Verdicts, patch maps, shims, and what there is to say of them. [mm, mm3]

    Notes
    -----
    Each reading is held against the limits of the surface that it was taken to. Source: own
    design, ``docs/theory/flatness.md``; each limit states its own.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> gap = Gap(kind="gap", at=750, height=300, straightedge=1200, held="level", reads=4)
    >>> row = {"id": "row", "about": "flat", "statement": "Flat.", "advice": "Fill it.",
    ...     "allows": [{"over": 2000, "at_most": 3}], "source": "None.", "sure": "calc"}
    >>> rows = Tolerances.model_validate({"format": 1, "unit": "mm", "tolerance": [row]})
    >>> back = job.wall[1].model_copy(update={"readings": (*job.wall[1].readings, gap)})
    >>> found = flatness_of(back, fit_walls(job).walls[1], longest_edge=600.0, limits=rows,
    ...     survey=job.survey, fixing="thin bed")
    >>> found.verdict, found.judged[0].over, [note.key for note in found.notes]
    ('out', 1.0, ['flatness.out', 'flatness.short-straightedge'])
    """
    rows = partial(limits_for, limits, longest_edge=longest_edge, fixing=fixing, region=region)
    judged: list[Judged] = []
    surfaces: list[SurfaceFlatness] = []
    notes: list[Message] = []
    short: list[Message] = []
    shims = None
    for surface, (gaps, depths) in _by_surface(wall, survey).items():
        applying = rows(surface=surface)
        flat = _about("flat", applying)
        if not flat and surface != "stud":
            notes.append(Message("flatness.no-limit", wall=wall.name, surface=surface))
        seen = (gap_departure(gap, survey.practice) for gap in gaps)
        judged += (judge(departure, row) for departure in seen for row in flat)
        if not depths:
            short += short_straightedges(gaps, fitted, flat)
            continue
        spots = spots_of(depths, survey.practice)
        surfaces.append(surface_flatness(spots, fitted, surface, applying))
        if surface == "stud":
            shims = shim_schedule(spots, display=display)
    usual = rows(surface=survey.surface)
    judged += edge_leans(fitted, _about("plumb", usual))
    judged += deck_fall(fitted, _about("level", usual))
    notes += [note for surface in surfaces for note in of_surface(wall.name, surface)]
    notes += of_judged(wall.name, judged)
    notes += [of_shims(wall.name, shims)] if shims else []
    notes += short
    return WallFlatness(
        wall=wall.name,
        verdict=_worst([*judged, *(one for found in surfaces for one in found.judged)]),
        judged=tuple(judged),
        surfaces=tuple(surfaces),
        shims=shims,
        notes=tuple(notes),
    )


def _by_surface(wall: Wall, survey: Survey) -> dict[Surface, tuple[list[Gap], list[Depth]]]:
    """Return the gaps and the depths that were read to each surface."""
    found: dict[Surface, tuple[list[Gap], list[Depth]]] = {}
    for reading in wall.readings:
        gaps, depths = found.get(reading.surface or survey.surface, ([], []))
        if isinstance(reading, Gap):
            gaps.append(reading)
        elif isinstance(reading, Depth):
            depths.append(reading)
        else:
            continue
        found[reading.surface or survey.surface] = gaps, depths
    return found


_RANK: tuple[Verdict, ...] = ("within", "open", "out")


def _worst(judged: Sequence[Judged]) -> Verdict:
    return max((one.verdict for one in judged), key=_RANK.index, default="within")


def _about(what: str, rows: Sequence[Tolerance]) -> tuple[Tolerance, ...]:
    return tuple(row for row in rows if row.about == what)
