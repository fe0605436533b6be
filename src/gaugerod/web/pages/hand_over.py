"""Hand over: how to care for it, what lots were used, when what was done, what is left over."""

from dataclasses import dataclass

from fastapi import APIRouter, Request
from starlette.responses import Response

from gaugerod.core.base.errors import GaugerodError
from gaugerod.packet.care import care
from gaugerod.packet.paper import Paragraph, Table
from gaugerod.web import urls
from gaugerod.web.cards import pieces_of
from gaugerod.web.desk import ready_of, replanned
from gaugerod.web.form import DeskHere
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.left import (
    LotRow,
    ModulesRow,
    OffcutRow,
    lot_rows,
    modules_left,
    offcuts_left,
)
from gaugerod.web.papers import PaperLink, links
from gaugerod.web.photos import Hook, Shot, hook, shots
from gaugerod.web.render import show
from gaugerod.web.strip import Stop, strip_of
from gaugerod.web.waiting import waiting

ROUTES = APIRouter()
PLACE = "alcove"
"""What the photos of the hand-over are of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteDayRow:
    """A day on site: the pieces that were set on it."""

    on: str
    set: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HandOverPage:
    """What stays with the customer, and what the crew has on record."""

    head: JobHead
    strip: tuple[Stop, ...]
    left: int
    notes: tuple[str, ...]
    care: tuple[tuple[str, ...], ...]
    lots: tuple[LotRow, ...]
    days: tuple[SiteDayRow, ...]
    spares: int
    modules: tuple[ModulesRow, ...]
    offcuts: tuple[OffcutRow, ...]
    as_file: str
    photos: Hook
    shots: tuple[Shot, ...]
    papers: tuple[PaperLink, ...]


@ROUTES.get(urls.HAND_OVER)
def page(request: Request, desk: DeskHere, job: str) -> Response:
    """Show what is handed over."""
    revision = desk.book.head("job", job)
    try:
        made = replanned(desk, revision).plan
    except GaugerodError as error:
        return waiting(request, desk, revision, "hand-over", error)
    ready = ready_of(desk, revision)
    words = ready.words
    blocks = tuple(care(made, words))
    context = HandOverPage(
        head=head_of(revision, "hand-over"),
        strip=strip_of(made, words),
        left=sum(piece.tag not in made.done for piece in pieces_of(made)),
        notes=tuple(block.text for block in blocks if isinstance(block, Paragraph)),
        care=tuple(row for block in blocks if isinstance(block, Table) for row in block.rows),
        lots=tuple(lot_rows(revision, ready, made)),
        days=tuple(
            SiteDayRow(on=day.get("on", ""), set=tuple(day["set"]))
            for day in revision.day.get("day", [])
            if "set" in day
        ),
        spares=made.order.spares,
        modules=modules_left(revision, ready, made),
        offcuts=(offcuts := offcuts_left(revision, ready, made)),
        as_file="\n".join(one.as_file for one in offcuts),
        photos=hook(desk, job, "hand-over", PLACE, back=urls.to(urls.HAND_OVER, job=job)),
        shots=shots(one for one in desk.book.photos(job) if one.subject != "hand-over"),
        papers=links(revision, made, ("customer.pdf", "days.ics")),
    )
    return show(request, "hand-over", context, words)
