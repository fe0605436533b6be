"""The walls: an elevation of each, the gauge rod as a table, and what is drilled."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.lengths import round_length
from gaugerod.core.base.messages import Length
from gaugerod.core.pipeline import Plan
from gaugerod.core.setout.field import low_point
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.core.sheet.elevation import draw_elevation
from gaugerod.core.sheet.levels import course_lines
from gaugerod.core.survey.walls import FittedHole, FittedWall
from gaugerod.core.takeoff.runs import trimmed
from gaugerod.packet.paper import Block, Heading, PageBreak, Paragraph, Picture, Table
from gaugerod.packet.phrases import length, together, wall_name
from gaugerod.packet.products import signs_in

ROOM = 205.0
"""What a sheet has left under a heading and a note. [mm]"""


def elevations(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield one elevation a page: the widest wall last, so that more fits under its drawing."""
    widest = max(plan.walls.walls, key=lambda wall: wall.right.offset - wall.left.offset)
    for wall in sorted(plan.walls.walls, key=lambda wall: wall is widest):
        yield PageBreak()
        yield Heading(text=wall_name(wall.name, words), level=1)
        yield Paragraph(text=words.text("paper.elevation"), style="small")
        yield Picture(drawing=elevation(plan, wall, words), height=ROOM)


def elevation(plan: Plan, wall: FittedWall, words: Catalogue) -> Drawing:
    """Return the elevation of one wall of a plan, with its trims."""
    (field,) = (one.field for one in plan.layout.walls if one.name == wall.name)
    trims = [line for _, line in trimmed(field, wall, plan.system)]
    signs = signs_in(plan)
    return draw_elevation(wall, plan.layout, plan.pieces, words, trims=trims, signs=signs)


def gauge_rod(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the course lines as a table, each height rounded once from the datum."""
    layout = plan.layout
    _, deck = low_point(plan.walls)
    yield Heading(text=words.text("paper.rod"), level=1)
    named = "paper.row-of-crossings" if layout.pattern else "paper.top-of-course"
    yield Paragraph(text=words.text("paper.rod-note"), style="plain")
    lines = [
        (words.text(named, n=line.course), line.height)
        for line in course_lines(layout)
        if line.height < layout.top - SNAP
    ]
    marks = [
        (words.text("paper.low-point"), deck),
        *lines,
        (words.text("paper.finish-line"), layout.top),
    ]
    yield Table(
        header=tuple(
            words.text(key) for key in ("paper.line", "paper.from-datum", "paper.from-deck")
        ),
        rows=tuple(
            (name, _signed(height, words), _between(deck, height, words))
            for name, height in reversed(marks)
        ),
        widths=(3, 3, 3),
        size="large",
    )


def _between(low: float, high: float, words: Catalogue) -> str:
    """Return how far apart two marks are, each rounded once from the datum, as elevations do."""
    marks = [round_length(height, words.display) for height in (low, high)]
    return length(float(marks[1] - marks[0]), words)


def _signed(height: float, words: Catalogue) -> str:
    key = "paper.down" if height < 0 else "paper.up"
    return words.text(key, height=Length(abs(height)))


def holes(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield what is drilled: centre from both edges and the datum, plate and depth."""
    drilled = [(wall, hole) for wall in plan.walls.walls for hole in wall.holes]
    if not drilled:
        return
    lining = Length(plan.system.thickness + plan.system.bed)
    keys = ("hole", "hole-in", "from-left", "from-right", "from-datum", "drill", "plate", "depth")
    table = Table(
        header=tuple(words.text(f"paper.{key}") for key in keys),
        rows=tuple(_hole(plan, wall, hole, words) for wall, hole in drilled),
        widths=(4.3, 2.4, 3.6, 3.6, 5.4, 3.2, 3.2, 5.3),
        size="clear",
    )
    note = Paragraph(text=words.text("paper.holes-note", lining=lining), style="plain")
    head = Heading(text=words.text("paper.holes"), level=1)
    yield together(head, note, table)


def _hole(plan: Plan, wall: FittedWall, hole: FittedHole, words: Catalogue) -> tuple[str, ...]:
    tags = [
        piece.tag
        for piece in plan.pieces
        if piece.wall == wall.name and any(drill.name == hole.name for drill in piece.holes)
    ]
    return (
        hole.name,
        " ".join(tags) or wall.name,
        length(hole.x - wall.left.at(hole.y), words),
        length(wall.right.at(hole.y) - hole.x, words),
        _signed(hole.y, words),
        length(hole.diameter, words),
        length(hole.plate, words),
        _depth(hole, words),
    )


def _depth(hole: FittedHole, words: Catalogue) -> str:
    """How far the valve stood out where it was read, and what its maker allows finished."""
    if hole.rough_in is None:
        return words.text("paper.none")
    read = Length(hole.rough_in)
    if hole.rough_in_limits is None:
        return words.text("paper.depth-read", read=read)
    least, most = map(Length, hole.rough_in_limits)
    return words.text("paper.depth-within", read=read, least=least, most=most)
