"""On the day: what hangs stays, what is there is used, the rest is planned again."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from gaugerod.core.base.messages import Message
from gaugerod.core.checks.check import check
from gaugerod.core.checks.finding import Finding
from gaugerod.core.cutting.insides import make_insides, pieces_inside
from gaugerod.core.cutting.pieces import Inside, Piece
from gaugerod.core.cutting.products import with_products
from gaugerod.core.job.on_site import OnSite, SiteDay
from gaugerod.core.job.rules import Rules
from gaugerod.core.pipeline import Plan
from gaugerod.core.replan.by_product import modules_short, modules_there, restocked_by_product
from gaugerod.core.replan.changes import changes
from gaugerod.core.replan.found import after_day
from gaugerod.core.replan.pieces import layout_on, remade, walls_found
from gaugerod.core.replan.site import Site
from gaugerod.core.replan.stock import Made


@dataclass(frozen=True, slots=True, kw_only=True)
class Replanned:
    """The plan as it stands after some days on site.

    `plan` holds every piece, those that hang as they hang; its order, price and days are those
    of the plan before. `cut` are the tags of what is cut and does not hang yet. `changes` say,
    day by day, what was found and what it changes; `short` is how many modules more are needed
    than there are.
    """

    plan: Plan
    cut: frozenset[str]
    changes: tuple[Message, ...]
    short: int


def replan(plan: Plan, on_site: OnSite, rules: Rules) -> Replanned:
    """Plan the rest of an alcove again, after what was done and found on site.

    Parameters
    ----------
    plan
        The plan before the first day. [mm]
    on_site
        What was set, cut and found, day by day. [mm]
    rules
        Rules to hold the new plan against.

    Returns
    -------
    Replanned
        The plan as it stands, and what changed. [mm]

    Raises
    ------
    InconsistentError
        A tag, a course or a reading is not of this plan, or something cannot be found yet.
    MaterialError
        A piece that is left is larger than a module.

    Notes
    -----
    What hangs never moves. With nothing found, nothing changes. The heights of the courses, the
    phases and the bond stay as they were chosen. Source: own design,
    ``docs/theory/on-the-day.md``.

    Examples
    --------
    >>> from gaugerod.core.replan.sample import sample_plan
    >>> made, rules = sample_plan(), Rules(format=1, unit="mm", rule=())
    >>> days = OnSite.model_validate({"format": 1, "unit": "mm", "day": [{"set": ["B1"]}]})
    >>> found = replan(made, days, rules)
    >>> len(found.plan.done), found.plan.pieces == made.pieces, found.short
    (3, True, 0)
    """
    site = Site(job=plan.job, walls=plan.walls)
    told: list[Message] = []
    short = 0
    for number, day in enumerate(on_site.day):
        site = after_day(site, plan, day, number)
        before = plan
        there = modules_there(plan, site)
        plan = _planned(site, plan, day, there)
        short = modules_short(plan, there)
        told += changes(before, plan, site, day, number)
    if short:
        told.append(Message("replan.short", count=short))
    return Replanned(
        plan=replace(plan, findings=_findings(plan, rules), done=site.done),
        cut=site.cut,
        changes=tuple(told),
        short=short,
    )


def _planned(site: Site, plan: Plan, day: SiteDay, there: Mapping[str, int]) -> Plan:
    """Return the plan after one day."""
    if not (day.line or day.gap or day.reading):
        return plan
    walls = walls_found(site)
    layout = layout_on(plan.layout, walls, plan.system)
    fresh = remade(site, layout, walls, plan.pieces, plan.system)
    pieces = with_products(fresh, plan.products)
    faces = make_insides(layout, walls, plan.system, accented=plan.products.accented)
    insides = tuple(_insides(plan.insides, faces, site.done))
    old = {piece.tag: piece for piece in _every(plan.pieces, plan.insides)}
    new = {piece.tag: piece for piece in _every(pieces, insides)}
    made = Made(on_wall=site.done, cut=site.cut)
    cuts = restocked_by_product(plan, old, new, made=made, there=there)
    return replace(
        plan,
        job=site.job,
        walls=walls,
        layout=layout,
        pieces=pieces,
        insides=insides,
        cuts=cuts,
    )


def _every(pieces: Sequence[Piece], insides: Sequence[Inside]) -> tuple[Piece, ...]:
    return (*pieces, *pieces_inside(tuple(insides)))


def _insides(
    before: Sequence[Inside], after: Sequence[Inside], done: frozenset[str]
) -> Iterator[Inside]:
    """Yield the inside faces as they are now, with what hangs in them as it hangs."""
    hang = {piece.tag: piece for face in before for piece in face.pieces if piece.tag in done}
    for face in after:
        pieces = tuple(hang.get(piece.tag, piece) for piece in face.pieces)
        yield replace(face, pieces=pieces)


def _findings(plan: Plan, rules: Rules) -> tuple[Finding, ...]:
    return check(
        job=plan.job,
        walls=plan.walls,
        layout=plan.layout,
        pieces=plan.pieces,
        insides=plan.insides,
        cuts=plan.cuts,
        order=plan.order,
        days=plan.days,
        system=plan.system,
        others=plan.products.systems[1:],
        rules=rules,
    )
