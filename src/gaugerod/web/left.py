"""What is left of a job, and what was used in it: offcuts, modules, lots with their days."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from gaugerod.app.job_book import Revision
from gaugerod.app.plan_job import Ready
from gaugerod.core.base.messages import Length
from gaugerod.core.job.own_order import Bought
from gaugerod.core.pipeline import Plan
from gaugerod.core.takeoff.left_over import LeftOffcut, left_modules, left_offcuts
from gaugerod.web.site import LOTS, kept


@dataclass(frozen=True, slots=True, kw_only=True)
class LotRow:
    """What was used, its lot, and when it was ordered and came."""

    name: str
    lot: str
    count: int
    ordered: str
    arrived: str
    supplier: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ModulesRow:
    """Whole modules of a product that are left."""

    name: str
    count: int
    lot: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OffcutRow:
    """An offcut that is left; `as_file` is how the next job's file has it."""

    tag: str
    product: str
    size: str
    keeps: tuple[str, ...]
    lot: str
    as_file: str


def lot_rows(revision: Revision, ready: Ready, made: Plan) -> Iterator[LotRow]:
    """Yield what is known of lots: from what was bought, else from the gates."""
    names = {line.id: line.name for line in made.order.lines}
    bought = [one for one in ready.job.bought if one.lot or one.arrived or one.ordered]
    for one in bought:
        yield LotRow(
            name=names.get(one.item, one.item),
            lot=one.lot,
            count=one.count,
            ordered=str(one.ordered or ""),
            arrived=str(one.arrived or ""),
            supplier=one.supplier,
        )
    known = {(one.item, one.lot) for one in bought}
    for item, lot in kept(revision.day, LOTS).items():
        if item in names and (item, lot) not in known:
            yield LotRow(name=names[item], lot=lot, count=0, ordered="", arrived="", supplier="")


def modules_left(revision: Revision, ready: Ready, made: Plan) -> tuple[ModulesRow, ...]:
    """Return the whole modules that are left."""
    lots = _lots(revision, ready.job.bought)
    found = left_modules(
        made.cuts,
        made.order,
        made.products,
        on_hand=ready.job.on_hand,
        broken=_broken(revision, made.products.main.id),
    )
    return tuple(
        ModulesRow(
            name=made.products.of(one.product).name, count=one.count, lot=lots.get(one.line, "")
        )
        for one in found
    )


def offcuts_left(revision: Revision, ready: Ready, made: Plan) -> tuple[OffcutRow, ...]:
    """Return the offcuts that are left."""
    words, products = ready.words, made.products
    lots = _lots(revision, ready.job.bought)
    lines = {one.id: f"modules-{one.id}" for one in products.systems}
    lines[products.main.id] = "modules"
    rows = []
    for one in left_offcuts(made.cuts, products, ready.job.offcut):
        lot = one.lot or lots.get(lines[one.product], "")
        rows.append(
            OffcutRow(
                tag=one.tag,
                product=products.of(one.product).name if len(products.systems) > 1 else "",
                size=" × ".join(words.show(Length(side)) for side in one.size),
                keeps=one.keeps,
                lot=lot,
                as_file=_as_file(one, lot, main=products.main.id),
            )
        )
    return tuple(rows)


def _as_file(one: LeftOffcut, lot: str, *, main: str) -> str:
    size = ", ".join(f'"{side:.1f} mm"' for side in one.size)
    keeps = ", ".join(f'"{side}"' for side in one.keeps)
    lines = ["[[offcut]]", f'name = "{one.tag}"', f"size = [{size}]", f"keeps = [{keeps}]"]
    if lot:
        plain = lot.replace("\\", " ").replace('"', " ")
        lines.append(f'lot = "{plain}"')
    if one.product != main:
        lines.append(f'material = "{one.product}"')
    return "\n".join(lines) + "\n"


def _lots(revision: Revision, bought: tuple[Bought, ...]) -> Mapping[str, str]:
    """Return the lots of each line of the order, each once."""
    told: dict[str, dict[str, None]] = {}
    for one in bought:
        if one.lot:
            told.setdefault(one.item, {})[one.lot] = None
    for item, lot in kept(revision.day, LOTS).items():
        told.setdefault(item, {})[str(lot)] = None
    return {item: ", ".join(lots) for item, lots in told.items()}


def _broken(revision: Revision, main: str) -> Mapping[str, int]:
    lost: Counter[str] = Counter()
    for entry in revision.day.get("day", []):
        lost[main] += entry.get("broken", 0)
        lost.update(entry.get("broken_of", {}))
    return lost
