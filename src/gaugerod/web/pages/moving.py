"""A job as one file, out of the book and into it; the jobs that show the program."""

from http import HTTPStatus
from pathlib import Path
from tempfile import TemporaryDirectory

from fastapi import APIRouter
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import BookError, Draft
from gaugerod.core.base.messages import Message
from gaugerod.store.book.carry import export_job, import_job
from gaugerod.store.kept import to_keep
from gaugerod.web import urls
from gaugerod.web.desk import Desk, plain_words
from gaugerod.web.form import DeskHere, Form, FormHere
from gaugerod.web.naming import name_in_links

ROUTES = APIRouter()
_ZIP = b"PK"
_FILE = "carried.zip"


@ROUTES.get(urls.EXPORT)
def take_out(desk: DeskHere, job: str) -> Response:
    """Give a job with its history and photos as one file."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / _FILE
        export_job(desk.book, job, path)
        content = path.read_bytes()
    headers = {"Content-Disposition": f'attachment; filename="{job}.zip"'}
    return Response(content, media_type="application/zip", headers=headers)


@ROUTES.post(urls.IMPORT)
def take_in(desk: DeskHere, form: FormHere) -> Response:
    """Take a job in: one that a book gave, a job file, or one of those that show the program."""
    file, source = form.files.get("file", ("", b""))
    if form.text("demo"):
        file, source = "", _demo(desk, form.text("demo"))
    if not source:
        raise BookError(Message("web.moving.no-file"))
    job = _bundle(desk, source) if source.startswith(_ZIP) else _written(desk, form, file, source)
    return RedirectResponse(urls.to(urls.JOB, job=job), HTTPStatus.SEE_OTHER)


def _demo(desk: Desk, name: str) -> bytes:
    for demo in desk.shelf.demos():
        if demo.name == name:
            return demo.source
    raise BookError(Message("web.moving.no-demo"))


def _bundle(desk: Desk, source: bytes) -> str:
    with TemporaryDirectory() as folder:
        path = Path(folder) / _FILE
        path.write_bytes(source)
        return import_job(desk.book, path)


def _written(desk: Desk, form: Form, file: str, source: bytes) -> str:
    document = to_keep(source, name=Path(file).name)
    made = desk.book.write(
        Draft(
            id=name_in_links(str(document.get("name", "")), form.key),
            seen=0,
            key=form.key,
            by=form.by,
            at=desk.now(),
            note=plain_words(desk).text("web.moving.note"),
            document=document,
        )
    )
    return made.id
