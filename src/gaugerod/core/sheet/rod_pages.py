"""The gauge rod at full size: one strip to a page, to be cut and laid end on end."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.base.messages import Length
from gaugerod.core.sheet.drawing import Area, Drawing, Item, Layer, Line, Text
from gaugerod.core.sheet.lettering import region_of, spread
from gaugerod.core.sheet.page import (
    GAP,
    HUGE,
    LARGE,
    PLAIN,
    SIDE,
    Said,
    check_square,
    frame,
    on_page,
    set_lines,
    shortened,
)
from gaugerod.core.sheet.rod import RodKind, RodMark, stations

BEYOND = {"imperial": 19.05, "metric": 20.0}
"""What a strip shows beyond its sub-datums: neighbours share twice as much. [mm]"""
_TICK, _BEND, _LABEL = 12.0, 17.0, 18.0  # where lines end, leaders end and labels begin
_END = 6.0  # of a sub-datum at the far side, to cut along
_ROW = LARGE + PLAIN + 1.4  # a figure and its name below it
_AIR = 1.8  # between two labels
_LAYERS: dict[RodKind, Layer] = {
    "deck": "outline",
    "course": "hole",
    "row": "hole",
    "finish": "outline",
    "hole": "fixture",
    "sill": "fixture",
    "head": "fixture",
    "station": "piece",
    "datum": "datum",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Strip:
    """One page of the rod, counted from the bottom, from 0, and where it lies on the page."""

    number: int
    count: int
    box: Box
    foot: float

    def at(self, height: float) -> float:
        """Return where on the page a height from the datum is. [mm]."""
        return self.foot + height - self.box.bottom


def rod_pages(
    marks: Sequence[RodMark], walls: Sequence[str], words: Catalogue, *, room: tuple[float, float]
) -> tuple[Drawing, ...]:
    """Draw the gauge rod at full size, from its bottom up.

    Parameters
    ----------
    marks
        What stands on it, from the lowest up, at least one mark. [mm]
    walls
        Names of all walls: a mark that is not for all of them has its own beside its figure.
    words
        Sentences, and how lengths are shown.
    room
        Width and height that a page has, at least 178 and 242. [mm]

    Returns
    -------
    tuple of Drawing
        A page for each step from sub-datum to sub-datum, and some more at either end of it.
        Lines stand at their exact heights; figures are rounded once, from the datum. Where
        more lines crowd a page than it has room to name, the highest go without a name. [mm]

    Notes
    -----
    Pages meet at sub-datums, so that each can be set by a tape from the datum: what taping
    pages together is out does not add up. Source: own design.

    Examples
    --------
    >>> from collections import defaultdict
    >>> from gaugerod.core.base.lengths import METRIC
    >>> words = Catalogue(display=METRIC, sentences=defaultdict(lambda: "word"))
    >>> marks = [RodMark(kind="course", name="1", height=310.0, walls=("B",))]
    >>> len(rod_pages(marks, ("B",), words, room=(181.5, 245.0)))
    2
    """
    levels = stations(tuple(marks), words.display)
    beyond, side = BEYOND[words.display.system], SIDE[words.display.system]
    wide = room[0] - side - GAP
    pages = []
    for number, (low, high) in enumerate(pairwise(levels)):
        box = Box(left=0.0, bottom=low.height - beyond, right=wide, top=high.height + beyond)
        strip = _Strip(number=number, count=len(levels) - 1, box=box, foot=room[1] - box.height)
        shown = [
            mark
            for mark in sorted((*marks, *levels), key=lambda mark: mark.height)
            if box.bottom - SNAP <= mark.height <= box.top + SNAP
        ]
        items = (
            *_strip(strip, shown),
            _number(strip, words),
            *_labels(strip, shown, walls, words),
            *_beside(strip, words, left=wide + GAP, top=room[1]),
        )
        pages.append(
            Drawing(
                name=f"rod-{number + 1}",
                title=words.text("full-size.strip", n=number + 1, of=strip.count),
                bounds=on_page(room),
                items=items,
            )
        )
    return tuple(pages)


def _strip(strip: _Strip, shown: Sequence[RodMark]) -> Iterator[Line]:
    foot, head = strip.foot, strip.foot + strip.box.height
    yield Line(layer="piece", start=(0.0, foot), end=(0.0, head))
    yield Line(layer="piece", start=(strip.box.right, foot), end=(strip.box.right, head))
    for mark in shown:
        y, layer = strip.at(mark.height), _LAYERS[mark.kind]
        yield Line(layer=layer, start=(0.0, y), end=(_TICK, y))
        if mark.kind in {"station", "datum"}:
            yield Line(layer=layer, start=(strip.box.right - _END, y), end=(strip.box.right, y))


def _number(strip: _Strip, words: Catalogue) -> Text:
    """Write along the strip which it is, for when it is cut off its page."""
    said = words.text("full-size.strip-up", n=strip.number + 1, of=strip.count)
    middle = strip.foot + strip.box.height / 2
    return Text(
        layer="dimension",
        at=(strip.box.right - _END / 2, middle),
        text=said,
        height=PLAIN,
        anchor="middle",
        turn=90,
    )


def _labels(
    strip: _Strip, shown: Sequence[RodMark], walls: Sequence[str], words: Catalogue
) -> Iterator[Item]:
    """Yield each figure with its name below, moved apart on leaders where lines crowd."""
    pitch = _ROW + _AIR
    named = shown[: int(strip.box.height // pitch)]
    wanted = [strip.at(mark.height) for mark in named]
    placed = list(spread(wanted, lengths=[_ROW] * len(named), gap=_AIR))
    _hold(placed, pitch, low=strip.foot + pitch / 2, high=strip.foot + strip.box.height - pitch / 2)
    room = strip.box.right - _END - 1.0 - _LABEL
    for mark, y, middle in zip(named, wanted, placed, strict=True):
        # A sub-datum is for all walls, too, and says none.
        on = "" if set(mark.walls) in ({*walls}, set()) else " · ".join(("", " ".join(mark.walls)))
        figure = shortened(signed(mark.height, words) + on, height=LARGE, width=room)
        name = shortened(mark_name(mark, words), height=PLAIN, width=room)
        yield Line(layer="dimension", start=(_TICK, y), end=(_BEND, middle))
        above, below = middle + (_ROW - LARGE) / 2, middle - (_ROW - PLAIN) / 2
        yield _text(figure, (_LABEL, above), LARGE, layer="tag")
        yield _text(name, (_LABEL, below), PLAIN, layer="dimension")


def _hold(placed: list[float], pitch: float, *, low: float, high: float) -> None:
    """Push labels back into the strip, the ones at its ends first."""
    for number in reversed(range(len(placed))):
        placed[number] = min(placed[number], high - pitch * (len(placed) - 1 - number))
    for number, middle in enumerate(placed):
        placed[number] = max(middle, low + pitch * number)


def _text(said: str, at: tuple[float, float], height: float, *, layer: Layer) -> Text:
    return Text(layer=layer, at=at, text=said, height=height, anchor="start", turn=0)


def mark_name(mark: RodMark, words: Catalogue) -> str:
    """Name a line of the rod.

    Parameters
    ----------
    mark
        The line. [mm]
    words
        Sentences.

    Returns
    -------
    str
        Its name.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> words = Catalogue(display=METRIC, sentences={"full-size.rod-sill": "{name}, sill"})
    >>> mark_name(RodMark(kind="sill", name="niche", height=140.0, walls=("B",)), words)
    'niche, sill'
    """
    return words.text(f"full-size.rod-{mark.kind}", name=mark.name)


def signed(height: float, words: Catalogue) -> str:
    """Write a height from the datum, rounded once, with an arrow for its way.

    Parameters
    ----------
    height
        The height, up positive. [mm]
    words
        Sentences, and how lengths are shown.

    Returns
    -------
    str
        The height.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> words = Catalogue(display=METRIC, sentences={"full-size.down": "↓ {height}"})
    >>> signed(-420.4, words)
    '↓ 420 mm'
    """
    if abs(height) < SNAP:
        return words.show(Length(0.0))
    key = "full-size.down" if height < 0 else "full-size.up"
    return words.text(key, height=Length(abs(height)))


def _beside(strip: _Strip, words: Catalogue, *, left: float, top: float) -> Iterator[Item]:
    """Yield what stands beside the strip: which it is, how to use it, and the check square."""
    side, number = SIDE[words.display.system], strip.number + 1
    head = "full-size.rod-on-top" if number == strip.count else "full-size.rod-top"
    foot = "full-size.rod-on-bottom" if number == 1 else "full-size.rod-bottom"
    parts = (
        Said(text=words.text("full-size.strip", n=number, of=strip.count), height=HUGE, bold=True),
        Said(text=words.text(head, n=number + 1), height=LARGE, bold=True),
        Said(text=words.text(foot, n=number - 1), height=LARGE, bold=True),
        Said(text=words.text("full-size.rod-edge")),
        Said(
            text=words.text("full-size.rod-join", overlap=Length(2 * BEYOND[words.display.system]))
        ),
        Said(text=words.text("full-size.rod-stations")),
        Said(text=words.text("full-size.rod-rounded")),
    )
    key_width = 8.0
    yield from set_lines(parts, left=left, top=top - 1.0, width=side - key_width - GAP)
    yield from check_square(words, left=left, bottom=0.0)
    yield from _key(strip, left=left + side - key_width, top=top - 1.0, width=key_width)


def _key(strip: _Strip, *, left: float, top: float, width: float) -> Iterator[Item]:
    """Draw the whole rod small, with the strip of this page filled."""
    tall = 100.0 / strip.count
    for number in range(strip.count):
        bottom = top - 100.0 + number * tall
        box = Box(left=left, bottom=bottom, right=left + width, top=bottom + tall)
        if number == strip.number:
            yield Area(layer="body", region=region_of(box), tone=0.6)
        else:
            yield from frame(box, layer="dimension")
