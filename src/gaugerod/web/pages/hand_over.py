"""Hand over: how to care for it, what lots were used, when what was done, what is left over."""

from collections.abc import Iterator
from dataclasses import dataclass

from fastapi import APIRouter, Request
from starlette.responses import Response

from gaugerod.app.job_book import Revision
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.pipeline import Plan
from gaugerod.packet.care import care
from gaugerod.packet.paper import Paragraph, Table
from gaugerod.web import urls
from gaugerod.web.cards import pieces_of
from gaugerod.web.desk import ready_of, replanned
from gaugerod.web.form import DeskHere
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.papers import PaperLink, links
from gaugerod.web.render import show
from gaugerod.web.site import LOTS, kept
from gaugerod.web.strip import Stop, strip_of
from gaugerod.web.waiting import waiting

ROUTES = APIRouter()


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
    lots: tuple[tuple[str, str], ...]
    days: tuple[SiteDayRow, ...]
    spares: int
    papers: tuple[PaperLink, ...]


@ROUTES.get(urls.HAND_OVER)
def page(request: Request, desk: DeskHere, job: str) -> Response:
    """Show what is handed over."""
    revision = desk.book.head("job", job)
    try:
        made = replanned(desk, revision).plan
    except GaugerodError as error:
        return waiting(request, desk, revision, "hand-over", error)
    words = ready_of(desk, revision).words
    blocks = tuple(care(made, words))
    context = HandOverPage(
        head=head_of(revision, "hand-over"),
        strip=strip_of(made, words),
        left=sum(piece.tag not in made.done for piece in pieces_of(made)),
        notes=tuple(block.text for block in blocks if isinstance(block, Paragraph)),
        care=tuple(row for block in blocks if isinstance(block, Table) for row in block.rows),
        lots=tuple(_lots(revision, made)),
        days=tuple(
            SiteDayRow(on=day.get("on", ""), set=tuple(day["set"]))
            for day in revision.day.get("day", [])
            if "set" in day
        ),
        spares=made.order.spares,
        papers=links(revision, made, ("customer.pdf", "days.ics")),
    )
    return show(request, "hand-over", context, words)


def _lots(revision: Revision, made: Plan) -> Iterator[tuple[str, str]]:
    lots = kept(revision.day, LOTS)
    yield from ((line.name, lots[line.id]) for line in made.order.lines if line.id in lots)
