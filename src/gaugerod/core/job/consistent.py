"""Do the parts of a job go together? Names, choices, calendar and sizes, before any reckoning."""

from collections.abc import Iterator
from itertools import chain
from zoneinfo import ZoneInfo

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.accents import accents
from gaugerod.core.job.bonds import pattern_bond, refused
from gaugerod.core.job.document import MIDNIGHT, NO_PLACE, Job, OffcutAtHand
from gaugerod.core.job.faults import Fault, InconsistentError, words_of
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.pierced import pierced
from gaugerod.core.job.products import modules_of, products_of
from gaugerod.core.job.public_holidays import is_place
from gaugerod.core.job.sizes import sizes


def consistent(job: Job, materials: Materials) -> None:
    """Refuse a job whose parts do not go together.

    Parameters
    ----------
    job
        The job.
    materials
        The materials at hand.

    Raises
    ------
    InconsistentError
        A name is given twice or means nothing, a hole or opening is not placed, the material
        or its turn is not at hand, another product would not fit where it is to stand, the
        calendar has no working hours, a change has no contract before it, or a size is not
        plausible. The message says where, what was read and what
        would do; `at` leads there.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> consistent(sample_job(), Materials(systems={"sample": sample_system()}))
    >>> consistent(sample_job(), Materials(systems={}))
    Traceback (most recent call last):
    gaugerod.core.job.faults.InconsistentError: ('job.at', ...)
    """
    faults = chain(
        _walls(job),
        _choices(job, materials),
        accents(job, materials),
        _calendar(job),
        _contract(job),
        _progress(job),
        _readings(job),
        _on_hand(job, materials),
        _pricing(job, materials),
        _extra(job, materials),
        _offcuts(job, materials),
        sizes(job),
    )
    for fault in faults:
        where = words_of(job.model_dump(by_alias=True), fault.at)
        raise InconsistentError(Message("job.at", where=where, wrong=fault.wrong), at=fault.at)


def _walls(job: Job) -> Iterator[Fault]:
    names = [wall.name for wall in job.wall]
    for number, wall in enumerate(job.wall):
        if wall.name in names[:number]:
            wrong = Message("job.name-twice", name=wall.name)
            yield Fault(at=("wall", number, "name"), wrong=wrong)
        if not wall.readings:
            yield Fault(at=("wall", number, "readings"), wrong=Message("job.no-readings"))
    if job.wall[-1].corner == "outside":
        at = ("wall", len(names) - 1, "corner")
        yield Fault(at=at, wrong=Message("job.no-next-wall", wall=names[-1]))


def _choices(job: Job, materials: Materials) -> Iterator[Fault]:
    choices = job.choices
    names = [wall.name for wall in job.wall]
    system = materials.systems.get(choices.material)
    if system is None:
        known = ", ".join(sorted(materials.systems))
        wrong = Message("job.unknown-material", read=choices.material, known=known)
        yield Fault(at=("choices", "material"), wrong=wrong)
    elif choices.turn not in (*system.turns, "any"):
        wrong = Message("job.turn-refused", read=choices.turn, known=", ".join(system.turns))
        yield Fault(at=("choices", "turn"), wrong=wrong)
    elif (bond := pattern_bond(choices.bond)) and (unfit := refused(system, bond)):
        yield Fault(at=("choices", "bond"), wrong=unfit)
    if choices.wall_order and sorted(choices.wall_order) != sorted(names):
        wrong = Message(
            "job.wall-order", read=", ".join(choices.wall_order), known=", ".join(names)
        )
        yield Fault(at=("choices", "wall_order"), wrong=wrong)
    for name in choices.phase:
        if name not in names:
            wrong = Message("job.unknown-wall", read=name, known=", ".join(names))
            yield Fault(at=("choices", "phase", name), wrong=wrong)
    for name, centring in choices.centre.items():
        at = ("choices", "centre", name)
        wall = next((wall for wall in job.wall if wall.name == name), None)
        if wall is None:
            wrong = Message("job.unknown-wall", read=name, known=", ".join(names))
            yield Fault(at=at, wrong=wrong)
        elif centring == "opening" and not wall.opening:
            yield Fault(at=at, wrong=Message("job.nothing-to-centre", wall=name))


def _offcuts(job: Job, materials: Materials) -> Iterator[Fault]:
    products = products_of(job.choices, materials)
    known = [system.id for system in products.systems]
    names = [held.name for held in job.offcut]
    for number, held in enumerate(job.offcut):
        product = held.material or products.main.id
        if product not in known:
            wrong = Message("job.offcut-of-none", read=product, known=", ".join(known))
            yield Fault(at=("offcut", number, "material"), wrong=wrong)
        elif held.name in names[:number]:
            wrong = Message("job.name-twice", name=held.name)
            yield Fault(at=("offcut", number, "name"), wrong=wrong)
        else:
            yield from _offcut_size(held, number, products.of(product).face)


def _offcut_size(held: OffcutAtHand, number: int, face: tuple[float, float]) -> Iterator[Fault]:
    ends: tuple[tuple[Side, Side], ...] = (("left", "right"), ("bottom", "top"))
    for size, most, both in zip(held.size, face, ends, strict=True):
        if size > most + SNAP:
            wrong = Message("job.offcut-too-large", size=Length(size), most=Length(most))
            yield Fault(at=("offcut", number, "size"), wrong=wrong)
        elif set(both) <= set(held.keeps) and size < most - SNAP:
            wrong = Message("job.offcut-keeps-both", size=Length(size), most=Length(most))
            yield Fault(at=("offcut", number, "keeps"), wrong=wrong)


def _calendar(job: Job) -> Iterator[Fault]:
    week = job.calendar
    if not _is_zone(job.timezone):
        yield Fault(at=("timezone",), wrong=Message("job.unknown-timezone", read=job.timezone))
    if not week.days:
        yield Fault(at=("calendar", "days"), wrong=Message("job.no-working-days"))
    if week.opens >= week.closes != MIDNIGHT:
        wrong = Message("job.closed", opens=f"{week.opens:%H:%M}", closes=f"{week.closes:%H:%M}")
        yield Fault(at=("calendar", "closes"), wrong=wrong)
    if week.holidays_of not in ("", NO_PLACE) and not is_place(week.holidays_of):
        wrong = Message("job.unknown-place", read=week.holidays_of)
        yield Fault(at=("calendar", "holidays_of"), wrong=wrong)


def _progress(job: Job) -> Iterator[Fault]:
    told: set[str] = set()
    for number, went in enumerate(job.calendar.progress):
        at = ("calendar", "progress", number)
        if went.task in told:
            yield Fault(at=(*at, "task"), wrong=Message("job.name-twice", name=went.task))
        if went.started and went.finished and went.finished < went.started:
            yield Fault(at=(*at, "finished"), wrong=Message("job.done-before-begun"))
        told.add(went.task)


def _contract(job: Job) -> Iterator[Fault]:
    for number, change in enumerate(job.change):
        if job.contract is None:
            yield Fault(at=("change", number), wrong=Message("job.change-without-contract"))
        elif change.signed and change.signed < job.contract.signed:
            wrong = Message("job.change-too-early", signed=str(job.contract.signed))
            yield Fault(at=("change", number, "signed"), wrong=wrong)


def _is_zone(name: str) -> bool:
    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError):  # a folder of zones is no zone either
        return False
    return True


def _readings(job: Job) -> Iterator[Fault]:
    ids: set[str] = set()
    for number, wall in enumerate(job.wall):
        at = ("wall", number)
        yield from pierced(wall, at)
        for place, reading in enumerate(wall.readings):
            if reading.id in ids:
                wrong = Message("job.name-twice", name=str(reading.id))
                yield Fault(at=(*at, "readings", place, "id"), wrong=wrong)
            ids |= {reading.id} if reading.id else set()


def _goods(job: Job, materials: Materials) -> tuple[str, ...]:
    """Return the ids of all lines that an order of the job may hold."""
    products = products_of(job.choices, materials)
    others = (modules_of(system.id) for system in products.systems[1:])
    return (*products.main.goods, *others)


def _pricing(job: Job, materials: Materials) -> Iterator[Fault]:
    own, known = job.pricing, _goods(job, materials)
    for number, one in enumerate(own.item):
        if one.item not in known:
            wrong = Message("job.unpriced-item", read=one.item, known=", ".join(known))
            yield Fault(at=("pricing", "item", number, "item"), wrong=wrong)
    named = {
        ("task", "task"): [one.task for one in own.task],
        ("item", "item"): [one.item for one in own.item],
        ("allowance", "id"): [one.id for one in own.allowance],
    }
    for (table, key), names in named.items():
        for number, name in enumerate(names):
            if name in names[:number]:
                wrong = Message("job.name-twice", name=name)
                yield Fault(at=("pricing", table, number, key), wrong=wrong)


def _extra(job: Job, materials: Materials) -> Iterator[Fault]:
    known = [*_goods(job, materials)]
    for number, one in enumerate(job.extra):
        if one.id in known:
            yield Fault(at=("extra", number, "id"), wrong=Message("job.name-twice", name=one.id))
        known.append(one.id)
    for number, bought in enumerate(job.bought):
        if bought.item not in known:
            wrong = Message("job.bought-unknown", read=bought.item, known=", ".join(known))
            yield Fault(at=("bought", number, "item"), wrong=wrong)


def _on_hand(job: Job, materials: Materials) -> Iterator[Fault]:
    known = _goods(job, materials)
    items = [held.item for held in job.on_hand]
    for number, item in enumerate(items):
        at = ("on_hand", number, "item")
        if item in items[:number]:
            yield Fault(at=at, wrong=Message("job.name-twice", name=item))
        elif item not in known:
            wrong = Message("job.unknown-item", read=item, known=", ".join(known))
            yield Fault(at=at, wrong=wrong)
        elif item.startswith("trim-") and job.on_hand[number].count % 1:
            wrong = Message("job.trim-in-part", read=f"{job.on_hand[number].count:g}")
            yield Fault(at=("on_hand", number, "count"), wrong=wrong)
