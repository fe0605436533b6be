"""What a day on site changes, to be told."""

from collections.abc import Iterator
from collections.abc import Set as AbstractSet

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.messages import Length, Message, Value
from gaugerod.core.cutting.insides import pieces_inside
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.on_site import SiteDay
from gaugerod.core.pipeline import Plan
from gaugerod.core.replan.alike import alike, differs_by
from gaugerod.core.replan.line import joints_over, move_above
from gaugerod.core.replan.open_strips import open_strips
from gaugerod.core.replan.site import Site

STEP = 25.4 / 16
"""Sizes are told to this. [mm]"""


def changes(before: Plan, after: Plan, site: Site, day: SiteDay, number: int) -> Iterator[Message]:
    """Yield what one day changed.

    Parameters
    ----------
    before, after
        The plan before and after it. [mm]
    site
        The state of the work after it. [mm]
    day
        What was done and found. [mm]
    number
        Which day it is, from 0. [1]

    Yields
    ------
    Message
        How much hangs; what the courses above a line found off do; each piece that is cut
        otherwise now, is no longer needed or is new; pieces that come out narrower than the
        material allows.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.replan.sample import sample_plan
    >>> made = sample_plan()
    >>> site = Site(job=made.job, walls=made.walls)
    >>> [message.key for message in changes(made, made, site, SiteDay(), 0)]
    ['replan.day', 'replan.same']
    """
    old = {piece.tag: piece for piece in (*before.pieces, *pieces_inside(before.insides))}
    new = {piece.tag: piece for piece in (*after.pieces, *pieces_inside(after.insides))}
    yield Message("replan.day", day=number + 1, set=len(site.done), of=len(new))
    yield from _lines(after, site, {line.wall for line in day.line})
    told = [*_pieces(old, new, site), *_moved(before, after, site)]
    yield from told or [Message("replan.same")]
    found = {line.wall for line in day.line} | {gap.wall for gap in day.gap}
    yield from _strips(after, site, found)
    least = after.system.cutting.least
    for tag, piece in new.items():
        narrow = min(piece.size)
        if tag not in site.done and narrow < least - SNAP and piece != old.get(tag):
            yield Message("replan.least", piece=tag, size=Length(narrow), least=Length(least))


def _lines(after: Plan, site: Site, walls: AbstractSet[str]) -> Iterator[Message]:
    """Yield how the courses above each line that was found lie now."""
    joint = after.layout.pitch[1] - after.layout.face[1]
    for wall in sorted(walls):
        line = site.lines[wall][-1]
        move = move_above(line, joint=joint)
        if joint > 0:
            left, right = joints_over(line, move, joint=joint)
            ends: dict[str, Value] = {"left": Length(left), "right": Length(right)}
        else:
            ends = {"left": _off(line.off[0]), "right": _off(line.off[1])}
        key = "replan.joint" if joint > 0 else "replan.line"
        yield Message(key, wall=wall, course=line.course, **ends)


def _off(off: float) -> Message:
    if abs(off) < SNAP:
        return Message("replan.true")
    return Message("replan.high" if off > 0 else "replan.low", off=Length(abs(off)))


def _pieces(old: dict[str, Piece], new: dict[str, Piece], site: Site) -> Iterator[Message]:
    for tag, piece in new.items():
        was = old.get(tag)
        if was is None:
            yield Message("replan.new", piece=tag, **_size("now", piece))
        elif tag not in site.done and not alike(was, piece):
            yield _change(was, piece, is_cut=tag in site.cut)
    for tag in sorted(old.keys() - new.keys()):
        yield Message("replan.gone", piece=tag)


def _moved(before: Plan, after: Plan, site: Site) -> Iterator[Message]:
    """Yield the pieces that come out of another module, though they are cut as they were."""
    old, new = (
        {placed.tag: stock.id for stock in plan.cuts.stock for placed in stock.pieces}
        for plan in (before, after)
    )
    same = [tag for tag in new if old.get(tag, new[tag]) != new[tag] and tag not in site.done]
    if same:
        yield Message("replan.elsewhere", pieces=", ".join(same))


def _change(was: Piece, piece: Piece, *, is_cut: bool) -> Message:
    by = differs_by(was, piece)
    sizes = {**_size("was", was), **_size("now", piece)}
    if is_cut:
        return Message("replan.recut", piece=piece.tag, **sizes)
    moved = max(abs(a - b) for a, b in zip(was.size, piece.size, strict=True))
    if moved < STEP:
        return Message("replan.marks", piece=piece.tag, by=Length(by))
    return Message("replan.changed", piece=piece.tag, **sizes)


def _strips(after: Plan, site: Site, walls: AbstractSet[str]) -> Iterator[Message]:
    """Yield what is left open on walls on which something was found."""
    for name in sorted(walls):
        strips = open_strips(after, name, site.lines.get(name, ()))
        if strips:
            wide = Length(max(width for _, width in strips))
            beside = ", ".join(dict.fromkeys(tag for tag, _ in strips))
            yield Message("replan.left-open", wall=name, wide=wide, beside=beside)


def _size(when: str, piece: Piece) -> dict[str, Value]:
    width, height = piece.size
    return {f"{when}_width": Length(width), f"{when}_height": Length(height)}
