"""Ready: the gates before what cannot be undone, and what must be on site."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from http import HTTPStatus

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import Revision
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.pipeline import Plan
from gaugerod.packet.closing import gates
from gaugerod.packet.paper import Checklist, Columns
from gaugerod.packet.phrases import packed
from gaugerod.web import urls
from gaugerod.web.desk import Desk, ready_of, replanned
from gaugerod.web.form import DeskHere, Edit, FormHere, change
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.papers import PaperLink, links
from gaugerod.web.render import show
from gaugerod.web.site import GATES, LOTS, keep, kept, token
from gaugerod.web.strip import Stop, strip_of
from gaugerod.web.waiting import waiting

ROUTES = APIRouter()
_MOST = 200
"""Characters of a lot's name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A line to tick. `by` ticked it; `lot` is asked for of what is bought, under `lot_of`."""

    token: str
    text: str
    ticked: bool
    by: str
    lot_of: str = ""
    lot: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate:
    """What must be true before something; `done` is how many of its lines are ticked."""

    title: str
    items: tuple[Item, ...]
    done: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyPage:
    """The gates of a job."""

    head: JobHead
    strip: tuple[Stop, ...]
    gates: tuple[Gate, ...]
    papers: tuple[PaperLink, ...]


@ROUTES.get(urls.READY)
def page(request: Request, desk: DeskHere, job: str) -> Response:
    """Show the gates of a job."""
    revision = desk.book.head("job", job)
    try:
        made = replanned(desk, revision).plan
    except GaugerodError as error:
        return waiting(request, desk, revision, "ready", error)
    words = ready_of(desk, revision).words
    context = ReadyPage(
        head=head_of(revision, "ready"),
        strip=strip_of(made, words),
        gates=tuple(_gates(desk, revision)),
        papers=links(revision, made, ("packet.pdf", "days.ics")),
    )
    return show(request, "ready", context, words)


@ROUTES.post(urls.READY)
def tick(desk: DeskHere, form: FormHere, job: str) -> Response:
    """Keep what was ticked, and the lots that were written down."""
    seen = desk.book.revision("job", job, form.seen)
    items = [item for gate in _gates(desk, seen) for item in gate.items]

    def edit(made: Edit) -> None:
        ticked, lots = kept(made.day, GATES), kept(made.day, LOTS)
        for item in items:
            if not form.text(f"tick.{item.token}"):
                ticked.pop(item.token, None)
            elif item.token not in ticked:
                ticked[item.token] = form.by
            if item.lot_of:
                lots[item.lot_of] = form.text(f"lot.{item.lot_of}")[:_MOST]
        keep(made.day, GATES, ticked)
        keep(made.day, LOTS, {name: lot for name, lot in lots.items() if lot})

    note = ready_of(desk, seen).words.text("web.ready.note")
    change(desk, job, form, edit, note=note)
    return RedirectResponse(urls.to(urls.READY, job=job), HTTPStatus.SEE_OTHER)


def _gates(desk: Desk, revision: Revision) -> Iterator[Gate]:
    words, made = ready_of(desk, revision).words, replanned(desk, revision).plan
    ticked, lots = kept(revision.day, GATES), kept(revision.day, LOTS)
    yield _gate(words.text("web.ready.on-site"), _goods(made, words, lots), ticked)
    for block in gates(made, words):
        for part in block.blocks if isinstance(block, Columns) else ():
            if isinstance(part, Checklist):
                yield _gate(part.title, [(text, "", "") for text in part.items], ticked)


def _goods(made: Plan, words: Catalogue, lots: dict[str, str]) -> Iterator[tuple[str, str, str]]:
    for line in made.order.lines:
        if line.count:
            text = words.text(
                "web.ready.goods", count=line.count, pack=packed(line, words), name=line.name
            )
        else:
            text = words.text("web.ready.on-hand", name=line.name)
        yield text, line.id, lots.get(line.id, "")


def _gate(title: str, lines: Iterable[tuple[str, str, str]], ticked: dict[str, str]) -> Gate:
    items = tuple(
        Item(
            token=(name := token(title, text)),
            text=text,
            ticked=name in ticked,
            by=ticked.get(name, ""),
            lot_of=lot_of,
            lot=lot,
        )
        for text, lot_of, lot in lines
    )
    return Gate(title=title, items=items, done=sum(item.ticked for item in items))
