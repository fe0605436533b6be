"""The two families of documents that a user keeps beside his jobs, and how each is asked for."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, Literal, TypeAlias, TypeVar

from fastapi import APIRouter, Depends, Request
from starlette.responses import Response

from gaugerod.app.job_book import Kind
from gaugerod.core.base.lengths import Unit
from gaugerod.core.job.fields import Document
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import RateTable

F = TypeVar("F", bound=Callable[..., Response])
Name: TypeAlias = Literal["materials", "rates"]
_UNITS: Mapping[object, Unit] = {"in": "in", "mm": "mm", "cm": "cm"}
_LEFT_OUT: Mapping[object, frozenset[str]] = {
    "keyed": frozenset({"joint", "mortar", "grout"}),
    "grouted": frozenset(
        {"key_depth", "edges", "adhesive", "cutting.groove_off", "gaps.hides_key"}
        | {f"sealant.{bead}" for bead in ("key_bead", "shoulder_bead", "cut_bead")}
    ),
    "sheet": frozenset(
        {"key_depth", "edges", "mortar", "grout", "cutting.groove_off"}
        | {"gaps.hides_key", "cutting.most_shift", "cutting.shift_over", "sealant.shoulder_bead"}
    ),
}
_WANTED: Mapping[object, frozenset[str]] = {
    "keyed": frozenset(
        {"key_depth", "edges", "adhesive"}
        | {f"edges.{side}" for side in ("left", "right", "bottom", "top")}
    ),
    "grouted": frozenset({"mortar", "grout"}),
    "sheet": frozenset({"adhesive"}),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """What documents it has, and the groups that a form asks for them in.

    `fixed` are keys that a document keeps from its beginning on.
    """

    name: Name
    kind: Kind
    model: type[Document]
    fixed: tuple[str, ...]
    groups: tuple[tuple[str, tuple[str, ...]], ...]


MATERIALS = Family(
    name="materials",
    kind="material",
    model=System,
    fixed=("format", "id", "unit", "kind"),
    groups=(
        (
            "module",
            ("name", "face", "thickness", "bed", "weight", "joint", "turns", "wall_order"),
        ),
        ("key", ("key_depth", "edges")),
        (
            "buying",
            (
                *("per_box", "price", "breakage", "spares"),
                *("attic", "lead_days", "acclimatise_hours"),
            ),
        ),
        ("cutting", ("cutting",)),
        ("gaps", ("gaps",)),
        ("trim", ("trim",)),
        ("adhesive", ("adhesive",)),
        ("mortar", ("mortar",)),
        ("grout", ("grout",)),
        ("sealant", ("sealant",)),
        ("membrane", ("membrane",)),
        ("backer", ("backer",)),
        ("supply", ("supply",)),
    ),
)
RATES = Family(
    name="rates",
    kind="rates",
    model=RateTable,
    fixed=("format", "id"),
    groups=(
        ("hour", ("currency", "labour", "crew")),
        ("on-top", ("markup", "margin", "contingency")),
        ("beside", ("tax", "freight", "freight_taxed", "subs", "permit", "disposal")),
        ("task", ("task", "together")),
        ("terms", ("terms",)),
        ("allowance", ("allowance",)),
        ("charge", ("charge",)),
        ("factor", ("factor",)),
        ("place", ("place",)),
        ("looks", ("looks",)),
    ),
)
FAMILIES: Mapping[str, Family] = {one.name: one for one in (MATERIALS, RATES)}


def _family_of(request: Request) -> Family:
    return FAMILIES[request.url.path.split("/")[1]]


FamilyHere: TypeAlias = Annotated[Family, Depends(_family_of)]


def family_of(kind: Kind) -> Family:
    """Return the family of a kind of document that is no job."""
    return next(one for one in FAMILIES.values() if one.kind == kind)


def both(routes: APIRouter, method: str, address: str) -> Callable[[F], F]:
    """Declare what answers at an address of either family."""

    def add(work: F) -> F:
        for name in FAMILIES:
            routes.add_api_route(address.replace("{family}", name), work, methods=[method])
        return work

    return add


def unit_of(values: Mapping[str, Any]) -> Unit:
    """Return the unit of plain numbers of a document or a form."""
    return _UNITS.get(values.get("unit"), "mm")


def left_out(kind: object) -> frozenset[str]:
    """Return what a kind of module is not asked for: places in the document."""
    return _LEFT_OUT.get(kind, frozenset())


def wanted(kind: object) -> frozenset[str]:
    """Return what a kind of module can't do without, though others can."""
    return _WANTED.get(kind, frozenset())
