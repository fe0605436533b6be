"""A page out of its context, a template and the words."""

from functools import cache
from importlib.resources import files

from fastapi import Request
from jinja2 import Environment, FunctionLoader, StrictUndefined
from markupsafe import Markup
from starlette.responses import HTMLResponse

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Message, Value
from gaugerod.web import urls
from gaugerod.web.form import fresh_key, writer_of

HERE = files("gaugerod") / "web"


def drawn(svg: str) -> Markup:
    """Return a drawing as a part of a page, not to be escaped again."""
    return Markup(svg)  # noqa: S704  (the writer of drawings escapes what stands in them)


def show(
    request: Request, template: str, page: object, words: Catalogue, *, status: int = 200
) -> HTMLResponse:
    """Return a page.

    Its template finds the context as `page`; `t` gives a sentence of the table `web`, `say` one of
    the core's messages, `fresh` a key for a form.
    """

    def t(key: str, /, **values: Value) -> str:
        return words.say(Message(f"web.{key}", **values))

    html = environment().get_template(f"{template}.html")
    text = html.render(
        page=page,
        t=t,
        say=words.say,
        value=words.show,
        url=urls,
        to=urls.to,
        fresh=fresh_key,
        writer=writer_of(request),
    )
    return HTMLResponse(text, status)


@cache
def environment() -> Environment:
    """Return what reads templates: everything that is put into one is escaped."""
    return Environment(
        loader=FunctionLoader(_source),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def _source(name: str) -> str:
    return (HERE / "templates" / name).read_text(encoding="utf-8")
