"""Quantities counted on the pieces and the fields."""

from collections import Counter
from math import dist, pi

from gaugerod.core.base.geometry import Region, shape_of
from gaugerod.core.cutting.insides import pieces_inside
from gaugerod.core.cutting.pieces import Inside, Piece
from gaugerod.core.job.materials import System
from gaugerod.core.setout.layout import SetField
from gaugerod.core.survey.walls import Walls
from gaugerod.core.takeoff.beads import bead_on
from gaugerod.core.takeoff.beds import joint_area
from gaugerod.core.takeoff.boards import lay_boards
from gaugerod.core.takeoff.cut_counts import count_cuts
from gaugerod.core.takeoff.order import Quantities, TrimRun
from gaugerod.core.takeoff.runs import EdgeRuns


def count_quantities(
    pieces: tuple[Piece, ...],
    fields: tuple[SetField, ...],
    runs: tuple[EdgeRuns, ...],
    walls: Walls,
    system: System,
    *,
    seams: tuple[TrimRun, ...] = (),
    insides: tuple[Inside, ...] = (),
) -> Quantities:
    """Count what is on the walls.

    Parameters
    ----------
    pieces
        All pieces. [mm]
    fields
        The fields that they cover. [mm]
    runs
        What runs along the edges of each field. [mm]
    walls
        The surveyed alcove, for its niches.
    system
        The material. [mm]
    seams
        Seams between sheets. [mm]
    insides
        Inside faces of openings, with their pieces. [mm]

    Returns
    -------
    Quantities
        Counts, lengths, areas and volumes. [mm, mm2, mm3]

    Notes
    -----
    Keyed pieces cover their field without a gap: the outlines of the pieces hold every key
    twice and all else once, the outlines of the field hold only that else. Half their
    difference is the length of the keys. What the inside faces take is bought with the rest;
    the hours for it are those of the niche or of the reveal, so that their cuts, areas and
    sealed lengths are kept apart. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> count_quantities((), (), (), fit_walls(sample_job()), sample_system()).pieces
    0
    """
    straight, shaped = count_cuts(pieces)
    covered = [region for field in fields for region in field.regions]
    inner = pieces_inside(insides)
    lined = [*covered, *(inside.region for inside in insides)]
    laid = [piece.region for piece in (*pieces, *inner)]
    keyed = system.kind == "keyed"
    beads = [bead for bead in (_bead(piece, system) for piece in (*pieces, *inner)) if bead]
    holes = {(piece.wall, hole.name): hole.diameter for piece in pieces for hole in piece.holes}
    return Quantities(
        pieces=len(pieces),
        straight_cuts=straight,
        shaped_cuts=shaped,
        holes=sum(len(piece.holes) for piece in pieces),
        niches=sum(o.kind == "niche" for wall in walls.walls for o in wall.openings),
        area=sum(shape_of(region).area for region in covered),
        key_length=max(_outlines(laid) - _outlines(lined), 0.0) / 2 if keyed else 0.0,
        joint_volume=0.0 if keyed else joint_area(lined, laid) * system.thickness,
        seal_length=sum(run.sealed for run in runs),
        bead_length=sum(beads),
        edge_length=sum(edge.length for run in runs for edge in run.edges),
        seam_length=sum(seam.length for seam in seams),
        inside_pieces=len(inner),
        inside_area=sum(shape_of(inside.region).area for inside in insides),
        inside_seal=sum(inside.sealed for inside in insides),
        reveals=len({(i.wall, i.opening) for i in insides if i.kind == "window"}),
        buttered=len(beads),
        longest_bead=max(beads, default=0.0),
        cut_length=sum(map(_cut_length, (*pieces, *inner))),
        ring_length=pi * sum(holes.values()),
        hole_sizes=tuple(sorted(Counter(holes.values()).items())),
        boards=lay_boards(fields, system.backer) if system.backer and fields else None,
    )


def _outlines(regions: list[Region]) -> float:
    return float(sum(shape_of(region).length for region in regions))


def _bead(piece: Piece, system: System) -> float:
    glue = system.adhesive
    if glue is None:
        return 0.0
    return bead_on(piece.region, inset=glue.inset, infill=glue.infill, none_under=glue.none_under)


def _cut_length(piece: Piece) -> float:
    return sum(dist(edge.start, edge.end) for edge in piece.edges if edge.kind == "cut")
