"""Rooms that are no plain alcove, all invented, as a setter would write them. Lengths in mm.

The datum is 760 over the low point of the tub, the ceiling 1400 over the datum and the floor
380 under the rim, unless a room says otherwise. Corners are plumb, so that sizes can be worked
by hand.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import radians, tan

Level = tuple[float, float] | tuple[float, float, str]

DECK = 760.0
CEILING = 1400.0


@dataclass(frozen=True, slots=True, kw_only=True)
class OddWall:
    """A wall by its width, and whatever is odd about it. [mm].

    `deck` and `ceiling` hold stations and heights from the datum (down, and up); `words` are
    lines for the wall itself, `readings` more readings, `tables` what pierces it.
    """

    name: str
    width: float
    deck: Sequence[Level] = ()
    ceiling: Sequence[Level] = ()
    words: Sequence[str] = ()
    readings: Sequence[str] = ()
    tables: Sequence[str] = ()


def _wall(wall: OddWall) -> Iterable[str]:
    deck = wall.deck or ((0, DECK), (wall.width, DECK))
    ceiling = wall.ceiling or ((0, CEILING), (wall.width, CEILING))
    yield "[[wall]]"
    yield f'name = "{wall.name}"'
    yield from wall.words
    yield "readings = ["
    for height in (-700, 0, 1000):
        yield f'  {{ kind = "width", at = {height}, reads = {wall.width} }},'
    for edge in ("left", "right"):
        yield f'  {{ kind = "lean", edge = "{edge}", over = 1800, reads = 0, sigma = 0.1 }},'
    for kind, levels in (("deck", deck), ("ceiling", ceiling)):
        for at, reads, *part in levels:
            of = f', part = "{part[0]}"' if part else ""
            yield f'  {{ kind = "{kind}", at = {at}, reads = {reads}{of} }},'
    yield from (f"  {{ {reading} }}," for reading in wall.readings)
    yield "]"
    yield from wall.tables


def room(name: str, *walls: OddWall, finish: str = "line", material: str = "tile-600x300") -> str:
    """Return the text of a job."""
    head = f"""format = 1
name = "{name}"
scenario = "Invented."
unit = "mm"
[survey]
surface = "backer"
[choices]
material = "{material}"
turn = "lying"
bond = "stack"
finish = "{finish}"
[calendar]
start = 2026-03-02
"""
    first, *others = walls
    floor = 'kind = "floor", at = 300, reads = 380'
    return head + "\n".join(
        [
            *_wall(replace(first, readings=(*first.readings, floor))),
            *(line for wall in others for line in _wall(wall)),
            "",
        ]
    )


def _window(*, left: float, right: float, sill: float, head: float, width: float) -> OddWall:
    edges = (
        ("left", "left", left),
        ("right", "right", width - right),
        ("width", "itself", right - left),
        ("sill", "datum", sill),
        ("head", "datum", head),
    )
    return OddWall(
        name="B",
        width=width,
        readings=[
            f'kind = "opening", of = "window", edge = "{edge}", from = "{start}", reads = {reads}'
            for edge, start, reads in edges
        ],
        tables=["[[wall.opening]]", 'name = "window"', 'kind = "window"'],
    )


L, B, R = (OddWall(name=name, width=width) for name, width in (("L", 800), ("B", 1500), ("R", 800)))


def five_walls() -> str:
    """A tub between two end walls that each turn a corner at the front: five walls."""
    left, right = OddWall(name="FL", width=400), OddWall(name="FR", width=400)
    return room("Five walls", left, L, B, R, right)


def bay() -> str:
    """A boxed-in stack in the right back corner, with an outside corner in front."""
    side = OddWall(name="C", width=250, words=['corner = "outside"'])
    return room("Bay", L, OddWall(name="B", width=1000), side, OddWall(name="F", width=500), R)


def knee_wall() -> str:
    """The right end is a knee wall, lined to 1100 over the floor."""
    return room("Knee wall", L, B, OddWall(name="R", width=800, words=["finish = 1100"]))


def sloping_ceiling() -> str:
    """The ceiling over the back wall falls to the right by 12 degrees."""
    low = round(CEILING - 1500 * tan(radians(12)), 1)
    back = OddWall(name="B", width=1500, ceiling=((0, CEILING), (1500, low)))
    right = OddWall(name="R", width=800, ceiling=((0, low), (800, low)))
    return room("Sloping ceiling", L, back, right, finish="ceiling")


def tall_window() -> str:
    """A window whose head stands above the ceiling of the alcove."""
    back = _window(left=500, right=1100, sill=300, head=1450, width=1500)
    return room("Tall window", L, back, R, finish="ceiling")


def leg() -> str:
    """The left end wall runs 120 past the tub, and its lining there to the floor."""
    deck = ((0, 1140, "floor"), (120, 1140, "floor"), (120, DECK), (920, DECK))
    return room("Leg", OddWall(name="L", width=920, deck=deck), B, R)


def platform() -> str:
    """A seat 120 over the deck in the right back corner, 500 by 300."""
    deck = ((0, DECK), (1000, DECK), (1000, 640, "platform"), (1500, 640, "platform"))
    right = ((0, 640, "platform"), (300, 640, "platform"), (300, DECK), (800, DECK))
    return room(
        "Platform",
        L,
        OddWall(name="B", width=1500, deck=deck),
        OddWall(name="R", width=800, deck=right),
    )


def narrow_wall() -> str:
    """A return of 180 between the back wall and a right end wall that stands farther back."""
    return room("Narrow wall", L, B, OddWall(name="N", width=180), OddWall(name="R", width=800))


def ledge() -> str:
    """A seat in the middle of the back wall, 400 over the deck: above the first course."""
    seat = ((500, 360, "ledge"), (1000, 360, "ledge"))
    deck = ((0, DECK), (500, DECK), *seat, (1000, DECK), (1500, DECK))
    return room("Ledge", L, OddWall(name="B", width=1500, deck=deck), R)


def odd_rooms() -> dict[str, str]:
    """Every odd room by its name."""
    return {
        "five walls": five_walls(),
        "bay": bay(),
        "knee wall": knee_wall(),
        "sloping ceiling": sloping_ceiling(),
        "tall window": tall_window(),
        "leg": leg(),
        "platform": platform(),
        "narrow wall": narrow_wall(),
        "ledge": ledge(),
    }
