"""What was found on the day: a line that is off, a gap that is left, modules that broke."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from http import HTTPStatus
from typing import Any

from fastapi import APIRouter, Request
from pydantic import ValidationError
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import BookError, Revision
from gaugerod.app.replan_story import tell_again
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.lengths import Unit
from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import Document
from gaugerod.core.job.on_site import FoundGap, FoundLine, SiteDay
from gaugerod.store.complaints import complaint
from gaugerod.web import urls
from gaugerod.web.bench.errors import UnfinishedError
from gaugerod.web.desk import Desk, ready_of, replanned
from gaugerod.web.form import DeskHere, Edit, FieldError, Form, FormHere, change
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.photos import Hook, hook
from gaugerod.web.render import show
from gaugerod.web.retaken import RetakenRow, disagrees, retaken
from gaugerod.web.site import find, found_in
from gaugerod.web.waiting import waiting
from gaugerod.web.walls import unit_of, walls_of

ROUTES = APIRouter()
_MODELS: dict[str, type[Document]] = {"line": FoundLine, "gap": FoundGap, "broken": SiteDay}
_FIELDS = {
    "line": ("wall", "course", "left", "right"),
    "gap": ("wall", "course", "side", "reads"),
    "broken": ("broken",),
}
_COUNTS = {"course", "broken"}
_DIGITS = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundPage:
    """Three small forms, and what the plan says after all that was found so far."""

    head: JobHead
    so_far: tuple[tuple[str, Hook], ...]
    walls: tuple[str, ...]
    unit: Unit
    told: tuple[str, ...]
    short: int
    suspects: tuple[str, ...]
    readings: tuple[tuple[str, tuple[RetakenRow, ...]], ...]
    on: str
    what: str
    values: dict[str, str]
    wrong: str
    said: str


@ROUTES.get(urls.FOUND)
def page(request: Request, desk: DeskHere, job: str) -> Response:
    """Show the forms, and what changed so far."""
    return _page(request, desk, desk.book.head("job", job))


@ROUTES.post(urls.FOUND)
def save(request: Request, desk: DeskHere, form: FormHere, job: str) -> Response:
    """Plan the rest again on what was found, and keep it."""
    seen = desk.book.revision("job", job, form.seen)

    def edit(made: Edit) -> None:
        what, unit = form.text("what"), unit_of(made.document)
        found = _found(form, what, unit)
        find(made.day, what, found, on=form.text("on"), unit=unit)
        try:
            replanned(desk, replace(seen, day=made.day))
        except UnfinishedError:
            raise
        except GaugerodError as error:
            raise FieldError(_FIELDS[what][0], error.message) from error

    note = ready_of(desk, seen).words.text("web.found.note")
    try:
        change(desk, job, form, edit, note=note)
    except FieldError as error:
        return _page(request, desk, seen, form, error)
    return RedirectResponse(urls.to(urls.FOUND, job=job), HTTPStatus.SEE_OTHER)


def _found(form: Form, what: str, unit: Unit) -> Any:  # noqa: ANN401  (a table, or a number)
    if what not in _MODELS:
        raise BookError(Message("web.trouble.no-such-place"))
    model = _MODELS[what]
    texts = {name: form.text(name) for name in _FIELDS[what]}
    raw: dict[str, Any] = {
        name: int(text) if name in _COUNTS and text.isdecimal() and len(text) <= _DIGITS else text
        for name, text in texts.items()
        if text
    }
    if what == "broken":
        raw.setdefault("broken", "")
    try:
        model.model_validate(raw, context={"unit": unit})
    except ValidationError as error:
        found = complaint(error, raw, model)
        raise FieldError("".join(map(str, found.at[:1])), found.message) from error
    return raw["broken"] if what == "broken" else raw


def _page(
    request: Request,
    desk: Desk,
    revision: Revision,
    form: Form | None = None,
    error: FieldError | None = None,
) -> Response:
    try:
        again = replanned(desk, revision)
    except GaugerodError as wrong:
        return waiting(request, desk, revision, "cut", wrong)
    words = ready_of(desk, revision).words
    context = FoundPage(
        head=head_of(revision, "cut"),
        so_far=tuple(_so_far(desk, revision, words)),
        walls=tuple(wall["name"] for wall in walls_of(revision.document)),
        unit=unit_of(revision.document),
        told=tuple(tell_again(again, words)),
        short=again.short,
        suspects=tuple(
            words.say(one.guess or disagrees(one.readings, one.w))
            for one in again.plan.walls.suspects
        ),
        readings=retaken(revision, ready_of(desk, revision).job),
        on=desk.now().date().isoformat(),
        what=form.text("what") if form else "",
        values=dict(form.values) if form else {},
        wrong=error.name if error else "",
        said=words.say(error.message) if error else "",
    )
    status = HTTPStatus.UNPROCESSABLE_ENTITY if error else HTTPStatus.OK
    return show(request, "found", context, words, status=status)


def _so_far(desk: Desk, revision: Revision, words: Catalogue) -> Iterator[tuple[str, Hook]]:
    """Yield what was found, in words, each with its photos."""
    back = urls.to(urls.FOUND, job=revision.id)
    for found in found_in(revision.day):
        yield (
            words.text(f"web.found.told-{found.what}", **found.values),
            hook(desk, revision.id, "finding", found.name, back=back),
        )
