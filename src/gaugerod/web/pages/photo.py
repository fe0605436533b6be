"""Photos: hung on what they are of, given words, taken off, and shown."""

from dataclasses import dataclass
from http import HTTPStatus

from fastapi import APIRouter, Request
from starlette.responses import FileResponse, RedirectResponse, Response

from gaugerod.app.job_book import SUBJECTS, BookError, Subject
from gaugerod.web import urls
from gaugerod.web.desk import Desk, words_for
from gaugerod.web.form import DeskHere, Form, FormHere
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.photos import Hook, hook
from gaugerod.web.render import show
from gaugerod.web.walls import no_place

ROUTES = APIRouter()
_KEPT = {"Cache-Control": "private, max-age=86400, immutable"}
"""A photo goes by its checksum: under its address there is never another one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoPage:
    """A photo that could not be hung: why, and the form once more."""

    head: JobHead
    hook: Hook
    note: str
    said: str


@ROUTES.get(urls.PHOTO)
def photo(desk: DeskHere, job: str, photo: str) -> Response:
    """Give one photo of a job, after it was held against its checksum."""
    for one in desk.book.photos(job):
        if one.sha256 == photo:
            path = desk.book.files.checked(one.sha256)
            return FileResponse(path, media_type=one.type, headers=_KEPT)
    raise BookError(no_place())


@ROUTES.post(urls.PHOTOS)
def hang(request: Request, desk: DeskHere, form: FormHere, job: str) -> Response:
    """Hang a photo, give it words, or take it off.

    Photos are no part of a revision: whoever else writes to the job, none is lost.
    """
    subject = _subject(form.text("subject"))
    try:
        _do(desk, job, form, subject)
    except BookError as error:
        head = desk.book.head("job", job)
        words = words_for(desk, head)
        page = PhotoPage(
            head=head_of(head, "photos"),
            hook=hook(desk, job, subject, form.text("name"), back=_back(form, job)),
            note=form.text("note"),
            said=words.say(error.message),
        )
        return show(request, "photo", page, words, status=HTTPStatus.UNPROCESSABLE_ENTITY)
    return RedirectResponse(_back(form, job), HTTPStatus.SEE_OTHER)


def _do(desk: Desk, job: str, form: Form, subject: Subject) -> None:
    name, by, at, note = form.text("name"), form.by, desk.now(), form.text("note")
    what, known = form.text("do"), form.text("photo")
    if what == "take-off":
        desk.book.take_off(job, known, subject=subject, name=name, by=by, at=at)
    elif what == "caption":
        desk.book.caption(job, known, subject=subject, name=name, by=by, at=at, note=note)
    else:
        _, content = form.files.get("file", ("", b""))
        desk.book.hang(job, content, subject=subject, name=name, by=by, at=at, note=note)


def _subject(text: str) -> Subject:
    for subject in SUBJECTS:
        if subject == text:
            return subject
    raise BookError(no_place())


def _back(form: Form, job: str) -> str:
    """Return the page of this job that the form came from, and no address elsewhere."""
    back, home = form.text("back"), urls.to(urls.JOB, job=job)
    return back if back.startswith(f"{home}/") and "\\" not in back else home
