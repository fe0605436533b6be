"""The walls of a job: added, renamed, moved and taken out, and what is said of each."""

from dataclasses import dataclass
from http import HTTPStatus
from typing import Any

from fastapi import APIRouter, Request
from pydantic import ValidationError
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import BookError, Revision
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Wall
from gaugerod.store.complaints import complaint
from gaugerod.web import urls
from gaugerod.web.answering import value_of
from gaugerod.web.asking import Question, at, put, question, texts_of, touched
from gaugerod.web.checked import field_error
from gaugerod.web.desk import Desk, words_for
from gaugerod.web.form import DeskHere, Edit, FieldError, Form, FormHere, change
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.offered import offered_for
from gaugerod.web.render import show
from gaugerod.web.sheets import WALL_ASKS
from gaugerod.web.wall_edit import (
    GoesWith,
    add_wall,
    fresh_name,
    goes_with,
    hangs,
    move_wall,
    rename_wall,
    take_out_wall,
)
from gaugerod.web.walls import READINGS, entries_of, unit_of, wall_of, walls_of

ROUTES = APIRouter()
_WAYS = {"left": -1, "right": 1}


@dataclass(frozen=True, slots=True, kw_only=True)
class WallRow:
    """A wall in the order of the room: how much was measured, and the corner at its right."""

    name: str
    link: str
    move: str
    readings: int
    corner: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WallsPage:
    """The walls from left to right, and the form of a new one."""

    head: JobHead
    walls: tuple[WallRow, ...]
    hangs: bool
    name: str
    wrong: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WallPage:
    """One wall: its name, what is said of it, and what goes with it when it is taken out."""

    head: JobHead
    wall: str
    name: str
    questions: tuple[Question, ...]
    goes: tuple[GoesWith, ...]
    stays: str
    wrong: str
    said: str


@ROUTES.get(urls.WALLS)
def walls(request: Request, desk: DeskHere, job: str) -> Response:
    """Show the walls of a job."""
    return _walls(request, desk, desk.book.head("job", job))


@ROUTES.post(urls.WALLS)
def add(request: Request, desk: DeskHere, form: FormHere, job: str) -> Response:
    """Put a new wall where the form says; then it is measured."""
    seen = desk.book.revision("job", job, form.seen)
    name = form.text("name").upper()

    def edit(made: Edit) -> None:
        add_wall(made, fresh_name(made.document, name), after=form.text("after"))

    note = words_for(desk, seen).text("web.wall.added", name=name)
    try:
        change(desk, job, form, edit, note=note)
    except FieldError as error:
        return _walls(request, desk, seen, form, error)
    address = f"{urls.to(urls.MEASURE, job=job)}#wall-{name}"
    return RedirectResponse(address, HTTPStatus.SEE_OTHER)


@ROUTES.get(urls.WALL)
def page(request: Request, desk: DeskHere, job: str, wall: str) -> Response:
    """Show one wall."""
    return _wall(request, desk, desk.book.head("job", job), wall)


@ROUTES.post(urls.WALL)
def save(request: Request, desk: DeskHere, form: FormHere, job: str, wall: str) -> Response:
    """Rename a wall, and write what is said of it."""
    seen = desk.book.revision("job", job, form.seen)
    words = words_for(desk, seen)
    new = form.text("name").upper()
    offered = offered_for(desk, seen, WALL_ASKS, words)

    def edit(made: Edit) -> None:
        there = wall_of(made.document, wall)
        for ask in WALL_ASKS:
            if touched(ask, form, offered):
                texts = texts_of(ask, form, offered)
                put(there, ask.path, value_of(texts, ask, offered, at(there, ask.path)))
        _can_be(made, wall)
        if new != wall:
            rename_wall(made, wall, fresh_name(made.document, new, old=wall))

    key = "web.wall.mended" if new == wall else "web.wall.renamed"
    try:
        change(desk, job, form, edit, note=words.text(key, name=wall, new=new))
    except FieldError as error:
        return _wall(request, desk, seen, wall, form=form, error=error)
    return RedirectResponse(urls.to(urls.WALLS, job=job), HTTPStatus.SEE_OTHER)


@ROUTES.post(urls.WALL_MOVE)
def move(desk: DeskHere, form: FormHere, job: str, wall: str) -> Response:
    """Move a wall past its neighbour, as long as nothing hangs."""
    seen = desk.book.revision("job", job, form.seen)
    if form.text("way") not in _WAYS:
        raise BookError(Message("web.trouble.no-such-place"))

    def edit(made: Edit) -> None:
        wall_of(made.document, wall)
        if hangs(made.day):
            raise BookError(Message("web.wall.hangs"))
        move_wall(made, wall, _WAYS[form.text("way")])

    change(desk, job, form, edit, note=words_for(desk, seen).text("web.wall.moved", name=wall))
    return RedirectResponse(urls.to(urls.WALLS, job=job), HTTPStatus.SEE_OTHER)


@ROUTES.post(urls.WALL_OUT)
def take_out(desk: DeskHere, form: FormHere, job: str, wall: str) -> Response:
    """Take a wall out, with all that goes with it; the history keeps it."""
    seen = desk.book.revision("job", job, form.seen)

    def edit(made: Edit) -> None:
        wall_of(made.document, wall)
        stays = _stays(made.document, made.day)
        if stays:
            raise BookError(Message(f"web.wall.{stays}"))
        take_out_wall(made, wall)

    change(desk, job, form, edit, note=words_for(desk, seen).text("web.wall.gone", name=wall))
    return RedirectResponse(urls.to(urls.WALLS, job=job), HTTPStatus.SEE_OTHER)


def _stays(document: dict[str, Any], day: dict[str, Any]) -> str:
    """Return the key of why no wall can be taken out, or nothing."""
    if len(walls_of(document)) == 1:
        return "only"
    return "hangs" if hangs(day) else ""


def _can_be(made: Edit, wall: str) -> None:
    there = wall_of(made.document, wall)
    raw = {**{ask.path[0]: at(there, ask.path) for ask in WALL_ASKS}, "name": wall}
    tables = {name: value for name, value in raw.items() if value is not None} | {READINGS: []}
    try:
        Wall.model_validate(tables, context={"unit": unit_of(made.document)})
    except ValidationError as error:
        found = complaint(error, tables, Wall)
        raise field_error(found.at, found.message) from error
    if there is walls_of(made.document)[-1] and there.get("corner") == "outside":
        raise FieldError("corner", Message("job.no-next-wall", wall=wall))


def _walls(
    request: Request,
    desk: Desk,
    revision: Revision,
    form: Form | None = None,
    error: FieldError | None = None,
) -> Response:
    words = words_for(desk, revision)
    context = WallsPage(
        head=head_of(revision, "measure"),
        walls=tuple(
            WallRow(
                name=wall["name"],
                link=urls.to(urls.WALL, job=revision.id, wall=wall["name"]),
                move=urls.to(urls.WALL_MOVE, job=revision.id, wall=wall["name"]),
                readings=len(entries_of(wall, READINGS)),
                corner="outside" if wall.get("corner") == "outside" else "inside",
            )
            for wall in walls_of(revision.document)
        ),
        hangs=hangs(revision.day),
        name=form.text("name") if form else "",
        wrong=error.name if error else "",
        said=words.say(error.message) if error else "",
    )
    status = HTTPStatus.UNPROCESSABLE_ENTITY if error else HTTPStatus.OK
    return show(request, "walls", context, words, status=status)


def _wall(
    request: Request,
    desk: Desk,
    revision: Revision,
    wall: str,
    *,
    form: Form | None = None,
    error: FieldError | None = None,
) -> Response:
    words = words_for(desk, revision)
    there = wall_of(revision.document, wall)
    offered = offered_for(desk, revision, WALL_ASKS, words)
    stays = _stays(dict(revision.document), dict(revision.day))
    context = WallPage(
        head=head_of(revision, "measure"),
        wall=wall,
        name=form.text("name") if form else wall,
        questions=tuple(question(ask, there, offered, form) for ask in WALL_ASKS),
        goes=tuple(goes_with(revision.document, revision.day, wall)),
        stays=words.text(f"web.wall.{stays}") if stays else "",
        wrong=error.name if error else "",
        said=words.say(error.message) if error else "",
    )
    status = HTTPStatus.UNPROCESSABLE_ENTITY if error else HTTPStatus.OK
    return show(request, "wall", context, words, status=status)
