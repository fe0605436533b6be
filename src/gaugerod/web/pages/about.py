"""The job beside its walls, as one form."""

from dataclasses import dataclass
from http import HTTPStatus
from itertools import groupby

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import Revision
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.web import urls
from gaugerod.web.about import ASKED, Asked, answered, stands
from gaugerod.web.desk import Desk, words_for
from gaugerod.web.form import DeskHere, Edit, FieldError, Form, FormHere, change
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.own.keep import materials_offered, rates_offered
from gaugerod.web.render import show
from gaugerod.web.sheets import SHEETS
from gaugerod.web.strip import Stop, strip_at_hand
from gaugerod.web.walls import unit_of

ROUTES = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """One field: what it is called in the form and in the catalogue, and what would do."""

    key: str
    called: str
    sort: str
    options: tuple[tuple[str, str], ...]
    value: str
    was: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AboutPage:
    """All questions by the table of the job that they belong to."""

    head: JobHead
    strip: tuple[Stop, ...]
    tables: tuple[tuple[str, tuple[Question, ...]], ...]
    sheets: tuple[str, ...]
    wrong: str
    said: str


@ROUTES.get(urls.ABOUT)
def page(request: Request, desk: DeskHere, job: str) -> Response:
    """Show what a job says beside its walls."""
    return _page(request, desk, desk.book.head("job", job))


@ROUTES.post(urls.ABOUT)
def save(request: Request, desk: DeskHere, form: FormHere, job: str) -> Response:
    """Write the answers as a new revision."""
    seen = desk.book.revision("job", job, form.seen)

    def edit(made: Edit) -> None:
        answered(made.document, form, unit_of(made.document))

    try:
        change(desk, job, form, edit, note=words_for(desk, seen).text("web.about.note"))
    except FieldError as error:
        return _page(request, desk, seen, form, error)
    return RedirectResponse(urls.to(urls.ABOUT, job=job), HTTPStatus.SEE_OTHER)


def _page(
    request: Request,
    desk: Desk,
    revision: Revision,
    form: Form | None = None,
    error: FieldError | None = None,
) -> Response:
    words = words_for(desk, revision)
    questions = [(one.table, _question(desk, revision, one, form, words)) for one in ASKED]
    context = AboutPage(
        head=head_of(revision, "about"),
        strip=strip_at_hand(desk, revision, words),
        tables=tuple(
            (table, tuple(question for _, question in found))
            for table, found in groupby(questions, key=lambda pair: pair[0])
        ),
        sheets=tuple(SHEETS),
        wrong=error.name if error else "",
        said=words.say(error.message) if error else "",
    )
    status = HTTPStatus.UNPROCESSABLE_ENTITY if error else HTTPStatus.OK
    return show(request, "about", context, words, status=status)


def _question(
    desk: Desk, revision: Revision, asked: Asked, form: Form | None, words: Catalogue
) -> Question:
    was = stands(revision.document, asked)
    options = tuple((one, words.text(f"web.word.{one}")) for one in asked.options)
    if asked.name == "material":
        options = materials_offered(desk, was)
    if asked.name == "rates":
        options = rates_offered(desk, was)
    if asked.sort == "choice" and was and was not in dict(options):
        # Said in a file in a way that no key has: it can stay.
        options = (*options, (was, was))
    return Question(
        key=asked.key,
        called=f"{asked.table}-{asked.name.replace('_', '-')}",
        sort=asked.sort,
        options=options,
        value=form.text(asked.key) if form else was,
        was=was,
    )
