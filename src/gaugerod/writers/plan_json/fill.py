"""From a plan to the parts of `plan.json`."""

from collections.abc import Iterator
from dataclasses import asdict
from math import isfinite

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box, Region, Ring
from gaugerod.core.base.messages import Message
from gaugerod.core.cutting.insides import pieces_inside
from gaugerod.core.cutting.pieces import Inside, Mark, Piece, PieceEdge, Stock
from gaugerod.core.cutting.products import counts_of
from gaugerod.core.job.materials import System
from gaugerod.core.options.option import Option
from gaugerod.core.pipeline import Plan
from gaugerod.core.setout.layout import Layout, WallLayout, top_of
from gaugerod.core.setout.odds import Odds
from gaugerod.core.setout.pattern import Pattern
from gaugerod.core.survey.walls import (
    FittedFixture,
    FittedHole,
    FittedOpening,
    FittedReading,
    FittedWall,
    Walls,
)
from gaugerod.writers.plan_json import document as to
from gaugerod.writers.plan_json.price import price_part

Points = tuple[tuple[float, float], ...]
Bounds = tuple[float, float, float, float]


def plan_json(plan: Plan, words: Catalogue, *, version: str) -> str:
    """Write a plan as JSON: the same plan gives the same text."""
    stock_of = {placed.tag: stock.id for stock in plan.cuts.stock for placed in stock.pieces}
    whole = to.PlanDocument(
        format=1,
        version=version,
        job=_job(plan, words),
        products=tuple(map(_product, plan.products.systems)),
        survey=_survey(plan.walls, words),
        walls=tuple(
            _wall(wall, layout)
            for wall, layout in zip(plan.walls.walls, plan.layout.walls, strict=True)
        ),
        layout=_layout(plan.layout, plan.chosen.odds, words),
        insides=tuple(_inside(inside) for inside in plan.insides),
        pieces=tuple(
            _piece(piece, stock_of[piece.tag])
            for piece in (*plan.pieces, *pieces_inside(plan.insides))
        ),
        stock=tuple(_stock(stock) for stock in plan.cuts.stock),
        buy=tuple(_buy(plan)),
        trims=tuple(to.TrimPart.model_validate(asdict(trim)) for trim in plan.order.trims),
        trim_counts=tuple(
            to.TrimCountPart.model_validate(asdict(count)) for count in plan.order.trim_counts
        ),
        options=tuple(_option(option, plan, words) for option in plan.options.options),
        order=_order(plan, words),
        price=price_part(plan, words),
        finish=plan.days.finish,
        no_water_until=plan.days.no_water_until,
        needed=plan.days.needed,
        order_by=plan.days.order_by,
        days=tuple(to.DayPart.model_validate(asdict(task)) for task in plan.days.tasks),
        findings=tuple(to.FindingPart.model_validate(asdict(one)) for one in plan.findings),
        hangs=tuple(sorted(plan.done)),
    )
    return whole.model_dump_json(by_alias=True, indent=1) + "\n"


def _job(plan: Plan, words: Catalogue) -> to.JobPart:
    return to.JobPart(
        name=plan.job.name,
        scenario=plan.job.scenario,
        display=words.display.system,
        timezone=plan.job.timezone,
    )


def _product(system: System) -> to.ProductPart:
    return to.ProductPart(
        id=system.id,
        name=system.name,
        kind=system.kind,
        face=system.face,
        joint=system.joint,
        kerf=system.cutting.kerf,
        thickness=system.thickness,
        key_depth=system.key_depth,
        edges=to.EdgesPart.model_validate(system.edges.model_dump()),
    )


def _survey(walls: Walls, words: Catalogue) -> to.SurveyPart:
    return to.SurveyPart(
        sigma0=walls.sigma0,
        dof=walls.dof,
        chance=walls.chance,
        fit_for=walls.fit_for,
        reasons=_said(walls.reasons, words),
        readings=tuple(_reading(one) for one in walls.readings),
        suspects=tuple(
            to.SuspectPart(
                readings=suspect.readings,
                w=suspect.w,
                guess=words.say(suspect.guess) if suspect.guess else None,
                decide=words.say(suspect.decide) if suspect.decide else None,
            )
            for suspect in walls.suspects
        ),
    )


def _reading(one: FittedReading) -> to.ReadingPart:
    # JSON has no infinity.
    detectable = one.detectable if isfinite(one.detectable) else None
    return to.ReadingPart.model_validate({**asdict(one), "detectable": detectable})


def _said(messages: tuple[Message, ...], words: Catalogue) -> tuple[str, ...]:
    return tuple(words.say(message) for message in messages)


def _wall(wall: FittedWall, layout: WallLayout) -> to.WallPart:
    return to.WallPart(
        name=wall.name,
        outline=_closed(wall.outline),
        fields=tuple(_rings(region) for region in layout.field.regions),
        openings=tuple(_opening(opening) for opening in wall.openings),
        holes=tuple(_hole(hole) for hole in wall.holes),
        fixtures=tuple(_fixture(fixture) for fixture in wall.fixtures),
    )


def _opening(opening: FittedOpening) -> to.OpeningPart:
    return to.OpeningPart(
        name=opening.name,
        kind=opening.kind,
        outline=_outline(opening.box),
        lined=opening.lined,
        depth=opening.depth,
    )


def _hole(hole: FittedHole) -> to.HolePart:
    return to.HolePart(name=hole.name, x=hole.x, y=hole.y, diameter=hole.diameter)


def _fixture(fixture: FittedFixture) -> to.FixturePart:
    return to.FixturePart(
        name=fixture.name,
        kind=fixture.kind,
        outline=_outline(fixture.box),
        clear=fixture.clear,
    )


def _closed(ring: Ring) -> Points:
    return (*ring, ring[0])


def _rings(region: Region) -> tuple[Points, ...]:
    return tuple(_closed(ring) for ring in region.rings)


def _outline(box: Box) -> Points:
    left, bottom, right, top = _bounds(box)
    return ((left, bottom), (right, bottom), (right, top), (left, top), (left, bottom))


def _bounds(box: Box) -> Bounds:
    return (box.left, box.bottom, box.right, box.top)


def _layout(layout: Layout, odds: Odds, words: Catalogue) -> to.LayoutPart:
    return to.LayoutPart(
        product=layout.product,
        turn=layout.turn,
        bond=layout.bond,
        first_course=layout.first_course,
        pitch=layout.pitch,
        top=layout.top,
        order=layout.order,
        walls=tuple(
            to.WallLayoutPart(
                name=wall.name,
                phase=wall.phase,
                row_shift=wall.row_shift,
                left=wall.field.left,
                right=wall.field.right,
                centring=wall.centring,
                ends=wall.ends,
                end_cuts=tuple(
                    to.EndCutPart.model_validate(asdict(end))
                    for end in odds.ends
                    if end.wall == wall.name
                ),
                top=top_of(layout, wall.name),
            )
            for wall in layout.walls
        ),
        pattern=_pattern(layout.pattern) if layout.pattern else None,
        reasons=_said(layout.reasons, words),
    )


def _pattern(pattern: Pattern) -> to.PatternPart:
    return to.PatternPart(
        cell=tuple(
            to.UnitPart(at=unit.at, face=unit.face, turn=unit.turn) for unit in pattern.cell
        ),
        across=pattern.across,
        up=pattern.up,
        joint=pattern.joint,
    )


def _piece(piece: Piece, stock: str) -> to.PiecePart:
    return to.PiecePart(
        tag=piece.tag,
        wall=piece.wall,
        course=piece.course,
        place=piece.place,
        product=piece.product,
        stock=stock,
        turn=piece.turn,
        tilt=piece.tilt,
        face=piece.face,
        rings=_rings(piece.region),
        cell=_bounds(piece.cell),
        within=_bounds(piece.within),
        size=piece.size,
        whole=piece.whole,
        edges=tuple(_edge(edge) for edge in piece.edges),
        keeps=piece.keeps,
        holes=tuple(to.HolePart.model_validate(asdict(hole)) for hole in piece.holes),
        measure_in_place=piece.measure_in_place,
        marks=tuple(_mark(mark) for mark in piece.marks),
    )


def _inside(inside: Inside) -> to.InsidePart:
    return to.InsidePart(
        name=inside.name,
        wall=inside.wall,
        opening=inside.opening,
        face=inside.face,
        fields=(_rings(inside.region),),
    )


def _edge(edge: PieceEdge) -> to.EdgePart:
    return to.EdgePart.model_validate(asdict(edge))


def _mark(mark: Mark) -> to.MarkPart:
    return to.MarkPart.model_validate(asdict(mark))


def _stock(stock: Stock) -> to.StockPart:
    return to.StockPart.model_validate(
        {
            **asdict(stock),
            "pieces": [
                {**asdict(piece), "blank": piece.blank and _bounds(piece.blank)}
                for piece in stock.pieces
            ],
            "sequence": [{**asdict(cut), "part": _bounds(cut.part)} for cut in stock.sequence],
        }
    )


def _buy(plan: Plan) -> Iterator[to.BuyPart]:
    counts = counts_of(plan.cuts, plan.system.id)
    for count, reuse, order in zip(counts, plan.reuse, plan.order.products, strict=True):
        yield to.BuyPart(
            product=count.product,
            modules=count.modules,
            lower_bound=count.lower_bound,
            proven=count.proven,
            alone=reuse.alone,
            edgeless=reuse.edgeless,
            saved=reuse.saved,
            spares=order.spares,
            boxes=order.boxes,
        )


def _option(option: Option, plan: Plan, words: Catalogue) -> to.OptionPart:
    return to.OptionPart(
        id=option.id,
        chosen=option.id == plan.chosen.id,
        picks=option.picks,
        turn=option.layout.turn,
        bond=option.layout.bond,
        first_course=option.layout.first_course,
        pieces=option.pieces,
        cuts=option.cuts,
        modules=option.modules,
        price=option.price,
        looks=option.looks,
        smallest=option.smallest,
        chance=option.odds.chance,
        limits=tuple(to.LimitOddsPart.model_validate(asdict(one)) for one in option.odds.limits),
        reason=words.say(option.reason),
    )


def _order(plan: Plan, words: Catalogue) -> tuple[to.OrderPart, ...]:
    return tuple(
        to.OrderPart(
            id=line.id,
            name=line.name,
            pack=line.pack,
            count=line.count,
            needed=line.needed,
            unit_price=line.unit_price,
            arithmetic=words.say(line.arithmetic),
        )
        for line in plan.order.lines
    )
