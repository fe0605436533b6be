"""Cut and set: cards in the order of setting, one to a screen, and what was done with each."""

from dataclasses import dataclass, replace
from http import HTTPStatus

from fastapi import APIRouter, Request
from markupsafe import Markup
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import BookError, Revision
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Message
from gaugerod.core.cutting.pieces import Piece
from gaugerod.packet.paper import Card, CardPiece
from gaugerod.web import urls
from gaugerod.web.cards import SET, STEPS, PieceRow, card_of, pieces_of, rows_of
from gaugerod.web.desk import Desk, ready_of, replanned
from gaugerod.web.form import DeskHere, Edit, FormHere, change
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.papers import PaperLink, links
from gaugerod.web.render import drawn, show
from gaugerod.web.site import CARDS, do, done_in, keep, kept, undo
from gaugerod.web.strip import Stop, strip_of
from gaugerod.web.waiting import waiting
from gaugerod.web.walls import unit_of

ROUTES = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPage:
    """All pieces in the order of setting; `next` is the first that does not hang."""

    head: JobHead
    strip: tuple[Stop, ...]
    fit: bool
    rows: tuple[PieceRow, ...]
    hang: int
    next: PieceRow | None
    papers: tuple[PaperLink, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """Something to tick of a piece."""

    name: str
    ticked: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPage:
    """One piece: its card where it is cut, what is ticked, the pieces before and after."""

    head: JobHead
    strip: tuple[Stop, ...]
    fit: bool
    row: PieceRow
    wall: str
    course: int
    place: int
    sheds: tuple[str, ...]
    card: Card | None
    own: CardPiece | None
    picture: Markup
    steps: tuple[Step, ...]
    hangs: bool
    before: PieceRow | None
    after: PieceRow | None
    on: str


@ROUTES.get(urls.CUT)
def page(request: Request, desk: DeskHere, job: str) -> Response:
    """Show the pieces of a job."""
    revision = desk.book.head("job", job)
    try:
        made = replanned(desk, revision).plan
    except GaugerodError as error:
        return waiting(request, desk, revision, "cut", error)
    words = ready_of(desk, revision).words
    rows = rows_of(job, made, revision.day)
    context = CutPage(
        head=head_of(revision, "cut"),
        strip=strip_of(made, words),
        fit=made.walls.fit_for == "cut",
        rows=rows,
        hang=sum(row.state == "set" for row in rows),
        next=next((row for row in rows if row.state != "set"), None),
        papers=links(revision, made, ("packet.pdf", "rod.pdf", "templates.pdf")),
    )
    return show(request, "cut", context, words)


@ROUTES.get(urls.CARD)
def card(request: Request, desk: DeskHere, job: str, tag: str) -> Response:
    """Show one piece."""
    revision = desk.book.head("job", job)
    try:
        made = replanned(desk, revision).plan
    except GaugerodError as error:
        return waiting(request, desk, revision, "cut", error)
    words = ready_of(desk, revision).words
    rows = rows_of(job, made, revision.day)
    number, piece = _numbered(pieces_of(made), tag)
    found = card_of(made, tag, words)
    picture = drawn(desk.writers.drawing(found[0].picture) if found else "")
    ticked = kept(revision.day, CARDS).get(tag, [])
    cut = done_in(revision.day, "cut")
    context = CardPage(
        head=head_of(revision, "cut"),
        strip=strip_of(made, words),
        fit=made.walls.fit_for == "cut",
        row=rows[number],
        wall=piece.wall,
        course=piece.course,
        place=piece.place,
        sheds=tuple(edge.side for edge in piece.edges if edge.kind == "tongue off"),
        card=found[0] if found else None,
        own=found[1] if found else None,
        picture=picture,
        steps=tuple(
            Step(name=name, ticked=name in ticked or (name == "cut" and tag in cut))
            for name in (() if piece.whole else STEPS)
        ),
        hangs=tag in made.done,
        before=rows[number - 1] if number else None,
        after=rows[number + 1] if number + 1 < len(rows) else None,
        on=desk.now().date().isoformat(),
    )
    return show(request, "card", context, words)


@ROUTES.post(urls.CARD)
def tick(desk: DeskHere, form: FormHere, job: str, tag: str) -> Response:
    """Tick one step of a piece, or take the tick back."""
    seen = desk.book.revision("job", job, form.seen)
    step = form.text("step")
    if step not in {*STEPS, SET}:
        raise BookError(Message("web.trouble.no-such-place"))
    made = replanned(desk, seen).plan
    number, _ = _numbered(pieces_of(made), tag)
    ticking = not _ticked(seen, step, tag)

    def edit(job_now: Edit) -> None:
        if step != SET:
            cards = kept(job_now.day, CARDS)
            others = [name for name in cards.get(tag, []) if name != step]
            keep(job_now.day, CARDS, {**cards, tag: [*others, *([step] if ticking else [])]})
        if step in {"cut", SET}:
            _write(job_now, step, tag, ticking=ticking, on=form.text("on"))
            _can_be(desk, seen, job_now)

    key = "web.cut.ticked" if ticking else "web.cut.taken-back"
    words = ready_of(desk, seen).words
    note = words.text(key, tag=tag, step=words.text(f"web.step.{step}"))
    change(desk, job, form, edit, note=note)
    rows = rows_of(job, made, seen.day)
    there = rows[number]
    if step == SET and ticking:
        there = next((row for row in rows[number + 1 :] if row.state != "set"), there)
    return RedirectResponse(there.link, HTTPStatus.SEE_OTHER)


def _ticked(seen: Revision, step: str, tag: str) -> bool:
    if step in {"cut", SET}:
        return tag in done_in(seen.day, step)
    return step in kept(seen.day, CARDS).get(tag, [])


def _write(made: Edit, done: str, tag: str, *, ticking: bool, on: str) -> None:
    if ticking:
        do(made.day, done, tag, on=on, unit=unit_of(made.document))
    else:
        undo(made.day, done, tag)


def _can_be(desk: Desk, seen: Revision, made: Edit) -> None:
    """See that the rest can be planned on what is about to be written."""
    replanned(desk, replace(seen, day=made.day))


def _numbered(pieces: tuple[Piece, ...], tag: str) -> tuple[int, Piece]:
    for number, piece in enumerate(pieces):
        if piece.tag == tag:
            return number, piece
    raise BookError(Message("web.trouble.no-such-place"))
