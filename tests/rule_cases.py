"""For every rule an alcove that keeps it and one that does not. Invented, in mm.

Every case begins with the alcove planned by hand. Figures on either side of a limit are worked
from what the source of the rule says, not from the file of the rule.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial

from tests.hand_alcove import WINDOW, lined_by_hand, tiled_by_hand

from gaugerod.core.base.geometry import Box
from gaugerod.core.checks.facts import Facts
from gaugerod.core.cutting.pieces import PieceEdge
from gaugerod.core.job.answers import Answers
from gaugerod.core.job.document import Fixture
from gaugerod.core.job.materials import System
from gaugerod.core.setout.sample import sample_layout
from gaugerod.core.survey.walls import FittedFixture, FittedWall, Suspect

INCH = 25.4
FOOT = 304.8


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """An alcove that keeps a rule, one that does not, and one where nobody has answered."""

    keeps: Facts
    breaks: Facts
    asks: Facts | None = None


def said(facts: Facts, **answers: object) -> Facts:
    """The alcove with answers."""
    made = Answers.model_validate({**facts.job.facts.model_dump(exclude_none=True), **answers})
    return replace(facts, job=facts.job.model_copy(update={"facts": made}))


def at(facts: Facts, **site: object) -> Facts:
    """The alcove at a place, or in a house of some year."""
    made = facts.job.site.model_copy(update=site)
    return replace(facts, job=facts.job.model_copy(update={"site": made}))


def of(facts: Facts, **fields: object) -> Facts:
    """The alcove in a material with other fields; a field of a part is named part__field."""
    raw = facts.system.model_dump()
    for name, value in fields.items():
        *parts, last = name.split("__")
        inside = raw
        for part in parts:
            inside = inside[part]
        inside[last] = value
    return replace(facts, system=System.model_validate(raw))


def walls(facts: Facts, **changed: FittedWall) -> Facts:
    """The alcove with some walls otherwise."""
    found = tuple(changed.get(wall.name, wall) for wall in facts.walls.walls)
    return replace(facts, walls=replace(facts.walls, walls=found))


def hole(facts: Facts, **fields: object) -> Facts:
    """The alcove with its valve otherwise."""
    left = facts.walls.walls[0]
    made = replace(left.holes[0], **fields)  # type: ignore[arg-type]  # any field of a hole
    return walls(facts, L=replace(left, holes=(made,)))


def bare(facts: Facts) -> Facts:
    """The alcove without a hole."""
    return walls(facts, L=replace(facts.walls.walls[0], holes=()))


def opening(facts: Facts, **fields: object) -> Facts:
    """The alcove with its window otherwise."""
    back = facts.walls.walls[1]
    made = replace(WINDOW, **fields)  # type: ignore[arg-type]  # any field of an opening
    return walls(facts, B=replace(back, openings=(made,)))


def top(facts: Facts, height: float) -> Facts:
    """The alcove with its lining up to a height over the datum."""
    return replace(facts, layout=replace(facts.layout, top=height))


def shifted(facts: Facts, shift: float) -> Facts:
    """The alcove with each course shifted."""
    lattices = tuple(replace(wall, row_shift=shift) for wall in facts.layout.walls)
    return replace(facts, layout=replace(facts.layout, walls=lattices))


def untouched(facts: Facts) -> Facts:
    """The alcove in which nothing is cut, drilled or torn out."""
    order = replace(facts.order, quantities=replace(facts.order.quantities, holes=0))
    cuts = replace(facts.cuts, cuts=0)
    return said(replace(bare(facts), order=order, cuts=cuts), strip_out=False)


def bars(facts: Facts, wall: str, *boxes: Box) -> Facts:
    """The alcove with grab bars on a wall, in a room built for access."""
    fixtures = tuple(
        FittedFixture(name=f"bar {n}", kind="bar", box=box, clear=0.0)
        for n, box in enumerate(boxes, 1)
    )
    found = next(one for one in facts.walls.walls if one.name == wall)
    fitted = walls(facts, **{wall: replace(found, fixtures=fixtures)})
    return said(fitted, accessible=True)


def bar(*, left: float = 100.0, length: float = 24.0, height: float = 34.0) -> Box:
    """A bar by its left end, its length [in] and its top over the floor [in]."""
    up = height * INCH - 1140.0
    return Box(left=left, bottom=up - 32.0, right=left + length * INCH, top=up)


def backed(backing: bool | None) -> Facts:
    """The alcove with a rail on its left wall, and what is behind it."""
    fixture = Fixture(name="rail", kind="rail", size=(500.0, 30.0), backing=backing)
    left, *others = KEYED.job.wall
    left = left.model_copy(update={"fixture": (fixture,)})
    return replace(KEYED, job=KEYED.job.model_copy(update={"wall": (left, *others)}))


def rake(facts: Facts, fall: float) -> Facts:
    """The alcove with a deck that falls over its right wall."""
    right = facts.walls.walls[2]
    raised = replace(right, deck=((0.0, -760.0), (800.0, -760.0 + fall)))
    level = {
        wall.name: replace(wall, deck=tuple((x, -760.0) for x, _ in wall.deck))
        for wall in facts.walls.walls[:2]
    }
    return walls(facts, **level, R=raised)


def cut(facts: Facts, *, width: float, run: float = 0.0) -> Facts:
    """The alcove with one piece that is cut on its right, tapered."""
    edge = PieceEdge(side="right", kind="cut", start=(width, 0.0), end=(width - run, 300.0))
    within = Box(left=0.0, bottom=0.0, right=width, top=facts.system.face[1])
    piece = replace(facts.pieces[0], within=within, edges=(edge,), whole=False)
    return replace(facts, pieces=(piece,))


def wide(facts: Facts, width: float) -> Facts:
    """The alcove with a back wall of some width."""
    back = facts.walls.walls[1]
    return walls(facts, B=replace(back, right=replace(back.right, offset=width)))


def shower(width: float, depth: float) -> Facts:
    """A shower of so much from lining to lining: 11.1125 of lining on each wall. [mm]."""
    lining = 9.525 + 1.5875
    deep = {
        wall.name: replace(wall, right=replace(wall.right, offset=depth + lining))
        for wall in KEYED.walls.walls
        if wall.name != "B"
    }
    return said(wide(walls(KEYED, **deep), width + 2 * lining), receptor="shower")


KEYED, TILE = lined_by_hand(), tiled_by_hand()
SHEET = of(
    KEYED, kind="sheet", edges={}, key_depth=0.0, face=(2400.0, 1200.0), weight=100.0, per_box=1
)
OLD = at(KEYED, built=1962)
NEW = at(KEYED, built=2001)
SLOPED = shifted(TILE, 200.0)


def answered(
    name: str, *, good: object, bad: object, facts: Facts = KEYED, **others: object
) -> Case:
    """One answer that will do, one that will not, and none."""
    with_others = said(facts, **others)
    return Case(
        keeps=said(with_others, **{name: good}),
        breaks=said(with_others, **{name: bad}),
        asks=with_others,
    )


def ticked(name: str, facts: Facts = KEYED) -> Case:
    """A line to tick: it is done, or not."""
    return Case(keeps=said(facts, ticked=[name]), breaks=facts)


def only(facts: Facts, other: Facts) -> Case:
    """A rule for one kind of alcove."""
    return Case(keeps=other, breaks=facts)


def hours(name: str, facts: Facts, *, good: float, bad: float) -> Case:
    """A hold of so many hours in the material."""
    return Case(keeps=of(facts, **{name: good}), breaks=of(facts, **{name: bad}))


def in_(region: str, case: Case, **editions: int) -> Case:
    """The same at a place, where some editions hold."""
    place = partial(at, region=region, editions=editions)
    asks = None if case.asks is None else place(case.asks)
    return Case(keeps=place(case.keeps), breaks=place(case.breaks), asks=asks)


def held(*, butt: float, corner: float) -> Facts:
    """The alcove with a back wall between two others, and the gaps at its ends. [mm]."""
    left, back, right = KEYED.layout.walls
    between = replace(back, field=replace(back.field, left="butts", right="runs behind"))
    layout = replace(KEYED.layout, walls=(left, between, right))
    return of(replace(KEYED, layout=layout), gaps__butt=butt, gaps__corner=corner)


SUSPECT = Suspect(readings=("B width 2",), w=9.1, guess=None)
WALLS, LAYOUT, SYSTEM = sample_layout()
LAID = replace(KEYED, walls=WALLS, layout=LAYOUT, system=SYSTEM)
EARLY = replace(KEYED.days, no_water_until=KEYED.days.tasks[0].end)

GENERAL: Mapping[str, Case] = {
    "suspect-reading": Case(
        keeps=KEYED, breaks=replace(KEYED, walls=replace(KEYED.walls, suspects=(SUSPECT,)))
    ),
    "survey-for-price": Case(
        keeps=KEYED, breaks=replace(KEYED, walls=replace(KEYED.walls, fit_for="price"))
    ),
    "least-piece": Case(keeps=cut(KEYED, width=50.0), breaks=cut(KEYED, width=49.9)),
    "plate-cover": Case(keeps=hole(KEYED, plate=89.0), breaks=hole(KEYED, plate=88.0)),
    "valve-too-deep": Case(
        keeps=hole(KEYED, rough_in_limits=(68.0, 75.0)),
        breaks=hole(KEYED, rough_in_limits=(69.0, 75.0)),
    ),
    "valve-too-proud": Case(
        keeps=hole(KEYED, rough_in_limits=(50.0, 69.0)),
        breaks=hole(KEYED, rough_in_limits=(50.0, 68.0)),
    ),
    "receptor": Case(keeps=said(KEYED, receptor="tub"), breaks=KEYED, asks=KEYED),
    "floor-unread": Case(
        keeps=KEYED, breaks=replace(KEYED, walls=replace(KEYED.walls, floor=None))
    ),
    "depth-unread": Case(
        keeps=opening(KEYED, lined=True, depth=90.0), breaks=opening(KEYED, lined=True)
    ),
    "valve-unread": Case(keeps=KEYED, breaks=hole(KEYED, rough_in=None)),
    "local-code": Case(keeps=at(KEYED, region="US-IL", editions={"IRC": 2018}), breaks=KEYED),
    "place-without-rules": Case(keeps=at(KEYED, region="AU"), breaks=at(KEYED, region="NZ")),
    "half-module": Case(keeps=cut(TILE, width=298.5), breaks=cut(TILE, width=298.0)),
    "running-bond-offset": Case(keeps=SLOPED, breaks=shifted(TILE, 201.0)),
    "least-joint": Case(keeps=of(TILE, joint=(1.6, 1.6)), breaks=of(TILE, joint=(1.5, 3))),
    "joint-for-sizes": answered("size_variation", good=1.0, bad=1.1, facts=TILE),
    "running-bond-joint": Case(keeps=said(SLOPED, warpage=0), breaks=said(SLOPED, warpage=0.1)),
    "running-bond-joint-calibrated": answered("rectified", good=True, bad=False, facts=SLOPED),
    "soft-joints": only(TILE, KEYED),
    "soft-joint-width": Case(keeps=of(TILE, gaps__ceiling=3.0), breaks=TILE),
    "movement-joint": Case(keeps=wide(TILE, 12 * FOOT), breaks=wide(TILE, 12 * FOOT + 1)),
    # A lap of 11.1 less 3 of gap hides an edge with 3 to cover, and not with 9.
    "closing-gap": Case(keeps=LAID, breaks=of(LAID, gaps__least_lap=9.0)),
    # 0.16 % of 1500 is 2.4, for both ends together.
    "room-to-grow": Case(keeps=held(butt=1.3, corner=1.2), breaks=held(butt=1.2, corner=1.1)),
    "deck-fall": Case(keeps=rake(KEYED, 12.7), breaks=rake(KEYED, 12.8)),
    # A face of 300 less a groove of 12.7 and a least piece of 50.
    "rake-in-one-course": Case(keeps=rake(KEYED, 237.2), breaks=rake(KEYED, 237.4)),
    # 1/64 of 597 is 9.33.
    "taper-shows": Case(
        keeps=cut(TILE, width=500.0, run=9.3), breaks=cut(TILE, width=500.0, run=9.4)
    ),
    "lippage": answered("lippage", good=0.79, bad=0.8, facts=TILE),
    "lippage-wide-joint": answered("lippage", good=1.58, bad=1.6, facts=of(TILE, joint=(7, 7))),
    "pipe-clearance": Case(keeps=hole(KEYED, pipe=69.6), breaks=hole(KEYED, pipe=69.7)),
    # The course line is at -470: 40.4 and 25.4 of clearance.
    "hole-near-joint": Case(
        keeps=hole(KEYED, x=300.0, y=-320.0), breaks=hole(KEYED, x=300.0, y=-420.0)
    ),
    # 1/4 in per ft of 90 is 1.875.
    "sill-pitch": Case(
        keeps=opening(KEYED, depth=90.0, fall=1.88), breaks=opening(KEYED, depth=90.0, fall=1.8)
    ),
    "niche-depth": Case(
        keeps=opening(KEYED, kind="niche", depth=76.2),
        breaks=opening(KEYED, kind="niche", depth=76.0),
    ),
    # 60 in over the drain at -1100 is 424.
    "safety-glazing": Case(
        keeps=opening(KEYED, box=replace(WINDOW.box, bottom=424.0)),
        breaks=opening(KEYED, box=replace(WINDOW.box, bottom=423.9)),
    ),
    "safety-glass-missing": Case(
        keeps=said(KEYED, safety_glass=True), breaks=said(KEYED, safety_glass=False)
    ),
    "bar-backing": Case(keeps=backed(True), breaks=backed(False), asks=backed(None)),
    "accessible": Case(
        keeps=said(bars(KEYED, "B", bar()), accessible=False),
        breaks=replace(bars(KEYED, "B", bar()), job=KEYED.job),
        asks=replace(bars(KEYED, "B", bar()), job=KEYED.job),
    ),
    "closet-side": answered("closet_side", good=381, bad=380),
    "closet-front": answered("closet_front", good=533.4, bad=533),
    "plywood-backer": answered("backer", good="foam board", bad="plywood"),
    "scald-guard": answered("limited_valve", good=True, bad=False),
    "hot-limit": answered("hot_limit", good="120 F", bad="121 F"),
    "adhesive-hold": hours("adhesive__hold_hours", KEYED, good=24, bad=23),
    "mortar-hold": hours("mortar__hold_hours", TILE, good=24, bad=23),
    "cement-grout-hold": hours("grout__hold_hours", TILE, good=48, bad=47),
    "epoxy-grout-hold": hours(
        "grout__hold_hours", of(TILE, grout__binder="epoxy"), good=24, bad=23
    ),
    "sealant-hold": hours("sealant__hold_hours", KEYED, good=24, bad=23),
    "dry-before-water": Case(keeps=KEYED, breaks=replace(KEYED, days=EARLY)),
    "room-for-mortar": answered("room", good="50 F", bad="49 F", facts=TILE),
    "room-warm": Case(keeps=said(TILE, room="70 F"), breaks=said(TILE, room="71 F")),
    "room-for-sealant": answered("room", good="40 F", bad="39 F"),
    "adhesive-fits": answered("adhesive_fits", good=True, bad=False),
    "year-unknown": Case(keeps=NEW, breaks=KEYED),
    "old-paint": in_("NZ", Case(keeps=at(KEYED, built=1997), breaks=at(KEYED, built=1996))),
    "old-building": in_("AU", Case(keeps=at(KEYED, built=2005), breaks=at(KEYED, built=2004))),
    "asbestos-found": Case(keeps=said(OLD, asbestos="clear"), breaks=said(OLD, asbestos="found")),
    "electricity": Case(keeps=untouched(KEYED), breaks=KEYED),
    "water": Case(keeps=said(bare(KEYED), strip_out=False), breaks=bare(KEYED)),
    "eyes": Case(keeps=untouched(KEYED), breaks=KEYED),
    "noise": Case(keeps=of(KEYED, cutting__tool="score and snap"), breaks=KEYED),
    "silica": only(TILE, KEYED),
    "silica-drilling": Case(keeps=untouched(TILE), breaks=TILE),
    "silica-board": Case(
        keeps=said(KEYED, backer="foam board"), breaks=said(KEYED, backer="fibre cement")
    ),
    "plastic-dust": only(KEYED, TILE),
    "vapour": only(KEYED, TILE),
    "wet-cement": only(TILE, KEYED),
    "lifting": Case(
        keeps=of(KEYED, weight=2.875), breaks=of(KEYED, weight=2.9)
    ),  # 8 in a box: 23.0, 23.2 kg
    # Half of 600 x 300 of a sheet of 2400 x 1200 is 1/32 of it.
    "sheet-two-people": Case(keeps=SHEET, breaks=of(SHEET, face=(800.0, 400.0))),
    "sheet-doorway": Case(
        keeps=at(SHEET, doorway=(720.0, 960.0)), breaks=at(SHEET, doorway=(719.0, 960.0))
    ),
    "sheet-second-check": only(SHEET, KEYED),
    "tub-rim": Case(keeps=said(KEYED, receptor="shower"), breaks=KEYED),
    "ladder": Case(keeps=top(KEYED, 688.8), breaks=top(KEYED, 688.9)),  # 6 ft over -1140
    "hidden-damage": Case(keeps=said(KEYED, strip_out=False), breaks=KEYED),
}

STEPS: Mapping[str, Case] = {
    **{
        name: ticked(name)
        for name in (
            "dead-and-drained",
            "protected",
            "stop-and-call",
            "pressure-test",
            "nail-plates",
            "inspected",
            "wall-flat",
            "level-checked",
            "one-lot",
            "layout-signed",
            "second-eyes",
            "plate-laid",
            "dry-fit",
            "in-date",
            "lap-clean",
            "shims-out",
            "seal-shape",
            "holds-run-out",
            "spray-test",
            "handed-over",
        )
    },
    "primer-dry": only(TILE, KEYED),
    "tub-firm": Case(keeps=said(KEYED, receptor="shower"), breaks=KEYED),
    "acclimatised": only(KEYED, TILE),
    "way-in": only(KEYED, TILE),
    "keys-home": only(KEYED, TILE),
    "coverage": only(TILE, KEYED),
    "joints-even": only(TILE, SHEET),
    "braced": only(SHEET, TILE),
    "tub-loaded": Case(keeps=said(KEYED, receptor="shower"), breaks=KEYED),
    "damp-cure": Case(keeps=of(TILE, grout__binder="epoxy"), breaks=TILE),
}

US: Mapping[str, Case] = {
    # 72 in over the floor at -1140 is 688.8, over the drain at -1100 is 728.8, 70 in 678.
    "finish-above-floor": Case(keeps=top(KEYED, 688.8), breaks=top(KEYED, 688.7)),
    "finish-above-drain": Case(keeps=top(KEYED, 728.8), breaks=top(KEYED, 728.7)),
    "finish-above-drain-older": in_(
        "US", Case(keeps=top(KEYED, 678.0), breaks=top(KEYED, 677.9)), IBC=2012
    ),
    "drain-unread": Case(
        keeps=KEYED, breaks=replace(KEYED, walls=replace(KEYED.walls, drain=None))
    ),
    "backer-listed": answered("backer", good="glass-mat gypsum", bad="gypsum"),
    "green-board": Case(
        keeps=said(KEYED, backer="fibre cement"),
        breaks=said(KEYED, backer="water-resistant gypsum"),
    ),
    "vapour-retarder": answered(
        "vapour_retarder", good=False, bad=True, backer="water-resistant gypsum"
    ),
    "tub-joint": in_("US", Case(keeps=said(KEYED, receptor="shower"), breaks=KEYED)),
    "receptacle": answered("receptacle", good=914.4, bad=914),
    "hanging-light": answered("hanging_light", good="none", bad=900),
    "gfci": answered("gfci", good=True, bad=False),
    # 30 x 30 in is 762 x 762; 25 x 52 in, 1300 sq in, is 635 x 1320.8.
    "shower-area": Case(keeps=shower(762.0, 762.1), breaks=shower(762.0, 761.5)),
    "shower-side": Case(keeps=shower(1320.9, 635.1), breaks=shower(1000.0, 761.0)),
    "shower-side-long": Case(keeps=shower(1320.9, 635.1), breaks=shower(1400.0, 634.9)),
    "shower-entry": answered("entry", good=558.8, bad=558, receptor="shower"),
    "curb-low": answered("curb", good=50.8, bad=50, receptor="shower"),
    "curb-high": answered("curb", good=228.6, bad=229, receptor="shower"),
    "pan-flat": answered("floor_slope", good=1 / 48, bad=0.0207, receptor="shower"),
    "pan-steep": answered("floor_slope", good=1 / 24, bad=0.0418, receptor="shower"),
    "bar-low": Case(
        keeps=bars(KEYED, "B", bar(height=33.0)), breaks=bars(KEYED, "B", bar(height=32.9))
    ),
    "bar-high": Case(
        keeps=bars(KEYED, "B", bar(height=36.0)), breaks=bars(KEYED, "B", bar(height=36.1))
    ),
    # The rim lies at -754 on the right wall: 386 over the floor, 15.197 in.
    "lower-bar-low": Case(
        keeps=bars(KEYED, "R", bar(), bar(height=23.2)),
        breaks=bars(KEYED, "R", bar(), bar(height=23.1)),
    ),
    "lower-bar-high": Case(
        keeps=bars(KEYED, "R", bar(height=25.1), bar()),
        breaks=bars(KEYED, "R", bar(height=25.3), bar()),
    ),
    "control-bar": Case(
        keeps=bars(KEYED, "L", bar(length=24.0)), breaks=bars(KEYED, "L", bar(length=23.9))
    ),
    "back-bar": Case(
        keeps=bars(KEYED, "B", bar(length=24.0)), breaks=bars(KEYED, "B", bar(length=23.9))
    ),
    "head-bar": Case(
        keeps=bars(KEYED, "R", bar(length=12.0)), breaks=bars(KEYED, "R", bar(length=11.9))
    ),
    # The back wall is 1500 wide, the valve at its left.
    "back-bar-to-control": Case(
        keeps=bars(KEYED, "B", bar(left=304.8)), breaks=bars(KEYED, "B", bar(left=305.0))
    ),
    "back-bar-to-head": Case(
        keeps=bars(KEYED, "B", bar(left=280.8)), breaks=bars(KEYED, "B", bar(left=280.7))
    ),
    "bar-strength": in_("US", Case(keeps=KEYED, breaks=bars(KEYED, "B", bar()))),
    "bar-band": in_("US", Case(keeps=KEYED, breaks=bars(KEYED, "B", bar()))),
    "spray-hose": answered("hose", good=1498.6, bad=1498, accessible=True),
    "threshold": answered("threshold", good=12.7, bad=13, accessible=True),
    "lead-paint": Case(keeps=at(KEYED, built=1978), breaks=at(KEYED, built=1977)),
    # The walls are 3100 wide together; 6 sq ft is 0.5574 m2, so 179.8 high.
    "lead-area": answered("paint_height", good=179, bad=180, facts=OLD),
    "lead-window": answered("window_out", good=False, bad=True, facts=OLD),
    "lead-answer": in_("US", Case(keeps=said(OLD, lead="clear"), breaks=OLD)),
    "asbestos": Case(keeps=at(KEYED, built=1981), breaks=at(KEYED, built=1980)),
    "asbestos-answer": in_("US", Case(keeps=said(OLD, asbestos="clear"), breaks=OLD)),
}

PLACES: Mapping[str, Case] = {
    # 32 x 32 in is 812.8 x 812.8 and 1024 sq in.
    "chicago-shower-area": in_(
        "US-IL-CHICAGO", Case(keeps=shower(812.9, 812.9), breaks=shower(812.9, 812.4))
    ),
    "chicago-shower-side": in_(
        "US-IL-CHICAGO", Case(keeps=shower(900.0, 812.8), breaks=shower(900.0, 812.7))
    ),
    "upc-shower-area": in_("US-CA", Case(keeps=shower(812.9, 812.9), breaks=shower(812.9, 812.4))),
    "upc-shower-circle": in_(
        "US-CA", Case(keeps=shower(900.0, 762.0), breaks=shower(900.0, 761.0))
    ),
}

GB: Mapping[str, Case] = {
    "joint-gb": Case(keeps=of(TILE, joint=(2, 2)), breaks=of(TILE, joint=(1.9, 2))),
    "joint-large-gb": Case(
        keeps=of(TILE, joint=(2, 2)),
        breaks=replace(of(TILE, joint=(2, 2)), layout=replace(TILE.layout, pitch=(602.0, 302.0))),
    ),
    "lippage-gb": Case(keeps=said(TILE, lippage=1.0), breaks=said(TILE, lippage=1.1)),
    "movement-joint-gb": Case(keeps=wide(TILE, 4500.0), breaks=wide(TILE, 4501.0)),
    "board-on-dabs-gb": answered("board_days", good=10.0, bad=9.0, facts=TILE),
    # 3.6 kg on 597 x 297 is 20.3 kg/m2, and 4 mm of bed 5.6.
    "plaster-load-gb": Case(
        keeps=said(of(TILE, weight=2.5), backer="plaster"), breaks=said(TILE, backer="plaster")
    ),
    "board-load-gb": Case(
        keeps=said(TILE, backer="gypsum"), breaks=said(of(TILE, weight=4.7), backer="gypsum")
    ),
    "receptacle-gb": answered("receptacle", good=2500, bad=2499),
    "receptacle-older-gb": in_("GB", answered("receptacle", good=3000, bad=2999), BS7671=2018),
    "rcd-gb": answered("gfci", good=True, bad=False),
    "zone-2-gb": answered("hanging_light", good=600, bad=599),
    "asbestos-gb": Case(keeps=at(KEYED, built=2000), breaks=at(KEYED, built=1999)),
    "asbestos-answer-gb": in_("GB", Case(keeps=said(OLD, asbestos="clear"), breaks=OLD)),
}

AU: Mapping[str, Case] = {
    "height-au": Case(keeps=top(KEYED, 660.0), breaks=top(KEYED, 659.0)),
    "junctions-au": in_("AU", ticked("junctions-au")),
    "upturn-au": in_("AU", ticked("upturn-au")),
}

CASES: Mapping[str, Case] = {**GENERAL, **STEPS, **US, **PLACES, **GB, **AU}
