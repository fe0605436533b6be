"""The pages as one application, made of what they are given."""

from collections.abc import Callable
from http import HTTPStatus

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.responses import Response
from starlette.staticfiles import StaticFiles

from gaugerod.app.job_book import ConflictError
from gaugerod.core.base.errors import GaugerodError
from gaugerod.web import papers, urls
from gaugerod.web.bench.errors import UnfinishedError
from gaugerod.web.desk import Desk, plain_words
from gaugerod.web.guard import Guard
from gaugerod.web.pages import (
    about,
    cut,
    entry,
    found,
    gate,
    hand,
    hand_over,
    jobs,
    listed,
    measure,
    moving,
    new,
    order,
    own_file,
    own_form,
    own_list,
    own_past,
    past,
    photo,
    planning,
    price,
    retake,
    set_out,
    sheet,
    wall,
)
from gaugerod.web.pages.conflict import conflict_page
from gaugerod.web.pages.trouble import Trouble
from gaugerod.web.planning import planning as planning_page
from gaugerod.web.render import HERE, show

_ROUTERS = tuple(
    part.ROUTES
    for part in (
        *(jobs, new, moving, past, about, measure, entry, wall, sheet, listed),
        *(
            set_out,
            hand,
            price,
            order,
            papers,
            gate,
            cut,
            found,
            retake,
            hand_over,
            photo,
            planning,
        ),
        *(own_list, own_file, own_form, own_past),
    )
)
_NOT_THERE = ("book.no-document", "book.no-revision", "web.trouble.no-such-place")


def make_app(desk: Desk) -> FastAPI:
    """Return the pages that speak to a desk."""
    app = FastAPI(openapi_url=None, docs_url=None, redoc_url=None, redirect_slashes=False)
    app.state.desk = desk
    words = plain_words(desk)
    said = {status: words.text(f"web.guard.refused-{status}") for status in (403, 413, 421)}
    app.add_middleware(Guard, said=said)
    app.mount(urls.STATIC, StaticFiles(directory=str(HERE / "static")), name="static")
    for router in _ROUTERS:
        app.include_router(router)

    @app.exception_handler(ConflictError)
    def conflict(request: Request, error: Exception) -> Response:
        assert isinstance(error, ConflictError)  # noqa: S101  (what it is registered for)
        return conflict_page(request, desk, error)

    @app.exception_handler(UnfinishedError)
    def unfinished(request: Request, error: Exception) -> Response:
        assert isinstance(error, UnfinishedError)  # noqa: S101  (what it is registered for)
        revision = desk.book.head("job", request.path_params["job"])
        return planning_page(request, desk, revision, "", error)

    _tell(app, GaugerodError, lambda request, error: _wrong(request, desk, error))
    _tell(app, HTTPException, lambda request, error: _no_page(request, desk, error))
    _tell(app, RequestValidationError, lambda request, error: _no_page(request, desk, error))
    return app


def _tell(
    app: FastAPI, kind: type[Exception], answer: Callable[[Request, Exception], Response]
) -> None:
    app.add_exception_handler(kind, answer)


def _wrong(request: Request, desk: Desk, error: Exception) -> Response:
    words = plain_words(desk)
    message = error.message if isinstance(error, GaugerodError) else None
    status = HTTPStatus.UNPROCESSABLE_ENTITY
    if message and message.key in _NOT_THERE:
        status = HTTPStatus.NOT_FOUND
    if message and message.key == "book.database":
        status = HTTPStatus.SERVICE_UNAVAILABLE
    said = words.say(message) if message else words.text("web.trouble.no-page")
    return show(request, "trouble", Trouble(said=said), words, status=status)


def _no_page(request: Request, desk: Desk, error: Exception) -> Response:
    status = error.status_code if isinstance(error, HTTPException) else HTTPStatus.NOT_FOUND
    words = plain_words(desk)
    page = Trouble(said=words.text("web.trouble.no-page"))
    return show(request, "trouble", page, words, status=status)
