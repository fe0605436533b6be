"""A layout that is set out by hand: where it is held, its walls as pictures, what it comes to."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import chain
from math import ceil, floor, inf
from operator import itemgetter

from gaugerod.app.job_book import Revision
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.errors import LengthError
from gaugerod.core.base.geometry import Box, Region, bounds_of
from gaugerod.core.base.lengths import Unit, parse_length
from gaugerod.core.base.messages import Length, Message, Money, Value
from gaugerod.core.checks.finding import Finding
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.document import Choices
from gaugerod.core.preview import Glance, Preview, held
from gaugerod.core.setout.events import Phase
from gaugerod.core.setout.layout import Layout, WallLayout
from gaugerod.core.survey.walls import FittedWall
from gaugerod.web.form import FieldError
from gaugerod.web.trial import Hand

FIRST, EXACT, PHASE = "first", "exact", "phase"
_MARGIN = 40.0
_BEYOND = 2
"""Courses that are drawn below the first and over the last, for the finger to pull in."""
_GRAVE = ("forbid", "warn")
_NEAR = 0.5
"""Places nearer to each other than this are one to a finger. [mm]"""
_FARTHEST = 100_000.0
"""No wall is longer. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A place worth a stop: what falls into place there, and where it is. [mm]."""

    text: str
    at: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HandWall:
    """One wall as a picture whose courses can be moved: all in mm, y up.

    `cells` are the modules of one strip of the pattern, a pitch wide and all courses high, from
    `base` up, where phase and first course are nought.
    """

    name: str
    box: Box
    outline: str
    pierced: str
    cells: tuple[tuple[float, float], ...]
    base: float
    tall: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GlanceAnswer:
    """What is known of a held layout at once, as text by name. [mm].

    `line` is the top of the first course from the datum; `may` tells whether its limits let it be
    held; `whole` whether all that follows from it is here too.
    """

    first: float
    line: float
    phases: Mapping[str, float]
    texts: Mapping[str, str]
    broken: tuple[str, ...]
    may: bool
    whole: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer(GlanceAnswer):
    """All that a held layout comes to: as text by name, and as paths of each wall. [mm]."""

    findings: tuple[str, ...]
    paths: Mapping[str, Mapping[str, str]]
    marks: Mapping[str, tuple[Mark, ...]]
    proven: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class HandView:
    """All that the page shows of it; `step` is what one key moves by. [mm]."""

    seen: int
    step: float
    face: tuple[float, float]
    pitch: tuple[float, float]
    wraps: bool
    least: float
    most: float
    allowed: str
    heights: tuple[Mark, ...]
    walls: tuple[HandWall, ...]
    answer: Answer


def view_of(revision: Revision, hand: Hand, answer: Answer, layout: Layout) -> HandView:
    """Return what the page shows of a layout that is held."""
    words, ranges = hand.words, hand.heights.allowed
    imperial = words.display.system == "imperial"
    said = [
        words.text("web.hand.range", low=Length(low), high=Length(high)) for low, high in ranges
    ]
    return HandView(
        seen=revision.n,
        step=25.4 / 16 if imperial else 1.0,
        face=layout.face,
        pitch=layout.pitch,
        wraps=hand.choices.corners == "run on",
        least=min((low for low, _ in ranges), default=answer.first),
        most=max((high for _, high in ranges), default=answer.first),
        allowed="; ".join(said) or words.text("web.hand.no-range"),
        heights=_height_marks(hand.heights.notable, words),
        walls=tuple(
            _wall(wall, on, layout)
            for wall, on in zip(hand.ground.brief.walls.walls, layout.walls, strict=True)
        ),
        answer=answer,
    )


def _height_marks(found: Iterable[Phase], words: Catalogue) -> tuple[Mark, ...]:
    return tuple(
        Mark(
            text=words.text(
                "web.hand.mark-first", at=Length(at), what=Message(f"setout.height-{name}")
            ),
            at=at,
        )
        for name, at in _apart(found)
    )


def _phase_marks(wall: str, found: Iterable[Phase], words: Catalogue) -> tuple[Mark, ...]:
    return tuple(
        Mark(
            text=words.text("web.hand.mark-wall", wall=wall, what=Message(f"setout.by-{name}")),
            at=at,
        )
        for name, at in _apart(found)
    )


def _apart(found: Iterable[Phase]) -> Iterator[Phase]:
    """Yield places from the lowest on, one where several fall together."""
    last = -inf
    for name, at in sorted(found, key=itemgetter(1)):
        if at - last > _NEAR:
            yield name, at
            last = at


def place_in(hand: Hand, sent: Mapping[str, str], unit: Unit) -> Choices:
    """Return the choices held where a form says; what it leaves out stays as it is.

    Raises
    ------
    FieldError
        A field is no length, or lies off the wall.
    """
    now = hand.choices
    first = _length(sent, FIRST, _first(now), unit, hand.words)
    if not 0 < first <= hand.layout.face[1]:
        most = Length(hand.layout.face[1])
        raise FieldError(FIRST, Message("web.hand.no-course", most=most))
    phases = {
        name: _length(sent, f"{PHASE}.{name}", x, unit, hand.words) for name, x in now.phase.items()
    }
    if hand.choices.corners == "run on":
        phases = _together(now.phase, phases)
    return held(now, first, phases)


def _together(before: Mapping[str, float], after: Mapping[str, float]) -> dict[str, float]:
    """Return phases of courses that run on: the wall that was moved takes all along. [mm]."""
    by = next((after[name] - x for name, x in before.items() if abs(after[name] - x) > 0), 0.0)
    return {name: x + by for name, x in before.items()}


def _length(sent: Mapping[str, str], name: str, now: float, unit: Unit, words: Catalogue) -> float:
    """Return a length that was written, or the exact one that it was shown for. [mm]."""
    text, exact = sent.get(name, "").strip(), sent.get(f"{EXACT}.{name}", "").strip()
    try:
        if exact and text == words.show(Length(float(parse_length(exact, unit="mm")))):
            text = exact
        length = float(parse_length(text, unit=unit)) if text else now
    except LengthError as error:
        raise FieldError(name, error.message) from error
    if abs(length) > _FARTHEST:
        raise FieldError(name, Message("web.hand.too-far"))
    return length


def answer_of(found: Preview, marks: Mapping[str, tuple[Phase, ...]], words: Catalogue) -> Answer:
    """Return what a held layout comes to, in the words of its reader."""
    layout, made = found.layout, found.followed
    grave = [one for one in made.findings if one.severity in _GRAVE]
    wrong = {one.where for one in grave}
    pieces = made.cut_up.pieces
    return Answer(
        first=_first(found.choices),
        line=layout.first_course,
        phases=found.choices.phase,
        texts={**dict(_figures(found, words)), **dict(_ends(found, words))},
        broken=tuple(words.say(message) for message in found.broken),
        may=not found.broken,
        whole=True,
        findings=tuple(dict.fromkeys(_said(one, words) for one in grave)),
        paths={
            wall.name: _paths(wall, [one for one in pieces if one.wall == wall.name], wrong)
            for wall in layout.walls
        },
        marks={name: _phase_marks(name, places, words) for name, places in marks.items()},
        proven=made.cut_up.cuts.proven,
    )


def glance_answer_of(found: Glance, words: Catalogue) -> GlanceAnswer:
    """Return what is known of a held layout before all is worked out that follows from it."""
    return GlanceAnswer(
        first=_first(found.choices),
        line=found.layout.first_course,
        phases=found.choices.phase,
        texts=dict(_ends(found, words)),
        broken=tuple(words.say(message) for message in found.broken),
        may=not found.broken,
        whole=False,
    )


def _first(choices: Choices) -> float:
    assert choices.first_height is not None  # noqa: S101  (held choices have one)
    return choices.first_height


def _figures(found: Preview, words: Catalogue) -> Iterator[tuple[str, str]]:
    made = found.followed
    cuts = made.cut_up.cuts

    def sure(name: str, value: Value) -> str:
        return words.show(value) if cuts.proven else words.text(f"web.hand.{name}", n=value)

    yield "price", sure("about", Money(made.price.price))
    yield "modules", sure("at-most", cuts.modules)
    yield "cuts", sure("about", cuts.cuts)
    yield "cut-pieces", words.show(sum(not piece.whole for piece in made.cut_up.pieces))
    smallest = min(min(piece.size) for piece in made.cut_up.pieces)
    yield "smallest", words.show(Length(smallest))


def _ends(found: Glance | Preview, words: Catalogue) -> Iterator[tuple[str, str]]:
    choices = found.choices
    yield FIRST, words.show(Length(_first(choices)))
    for wall in found.layout.walls:
        left, right = map(Length, wall.ends)
        yield f"ends.{wall.name}", words.text("web.hand.ends", left=left, right=right)
        yield f"{PHASE}.{wall.name}", words.show(Length(choices.phase[wall.name]))


def _said(finding: Finding, words: Catalogue) -> str:
    kind = words.text(f"web.hand.{finding.severity}")
    return f"{kind}: {finding.statement}" + (f" ({finding.where})" if finding.where else "")


def _paths(wall: WallLayout, pieces: list[Piece], wrong: set[str]) -> dict[str, str]:
    """Return the field of a wall, and its pieces by what they are, as paths."""
    amiss = [one for one in pieces if one.tag in wrong]
    fine = [one for one in pieces if one.tag not in wrong]
    return {
        "field": path_of(wall.field.regions),
        "whole": path_of(one.region for one in fine if one.whole),
        "cut": path_of(one.region for one in fine if not one.whole),
        "wrong": path_of(one.region for one in amiss),
    }


def path_of(regions: Iterable[Region]) -> str:
    """Return regions as one path, to a tenth of a mm."""
    rings = chain.from_iterable(region.rings for region in regions)
    return "".join("M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in ring) + "Z" for ring in rings)


def _wall(wall: FittedWall, on: WallLayout, layout: Layout) -> HandWall:
    box = bounds_of((wall.outline, *on.field.gross.rings))
    low = floor((box.bottom - layout.first_course) / layout.pitch[1]) - _BEYOND
    high = ceil((box.top - layout.first_course) / layout.pitch[1]) + _BEYOND
    rows = range(low, high + 1)
    width = layout.pitch[0]
    starts = [(row * on.row_shift % width, (row - low) * layout.pitch[1]) for row in rows]
    cells = [(x - off, y) for x, y in starts for off in (0.0, width)]
    return HandWall(
        name=wall.name,
        box=Box(
            left=box.left - _MARGIN,
            bottom=box.bottom - _MARGIN,
            right=box.right + _MARGIN,
            top=box.top + _MARGIN,
        ),
        outline=path_of((Region(rings=(wall.outline,)),)),
        pierced="".join(_pierced(wall)),
        cells=tuple(cells),
        base=low * layout.pitch[1] - layout.face[1],
        tall=len(rows) * layout.pitch[1],
    )


def _pierced(wall: FittedWall) -> Iterator[str]:
    boxes = (*(one.box for one in wall.openings), *(one.box for one in wall.fixtures))
    for box in boxes:
        yield (f"M{box.left:.1f} {box.bottom:.1f}H{box.right:.1f}V{box.top:.1f}H{box.left:.1f}Z")
    for hole in wall.holes:
        r = hole.diameter / 2
        yield f"M{hole.x - r:.1f} {hole.y:.1f}a{r:.1f} {r:.1f} 0 1 0 {2 * r:.1f} 0"
        yield f"a{r:.1f} {r:.1f} 0 1 0 {-2 * r:.1f} 0Z"
