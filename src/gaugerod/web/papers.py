"""The papers of a job: which there are, and each as a file."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from mimetypes import guess_type

from fastapi import APIRouter
from starlette.responses import Response

from gaugerod.app.job_book import BookError, Revision
from gaugerod.core.base.messages import Message
from gaugerod.core.pipeline import Plan
from gaugerod.web import urls
from gaugerod.web.desk import papers_of
from gaugerod.web.form import DeskHere

ROUTES = APIRouter()
_SHOWN = {"application/pdf", "image/svg+xml"}
"""What a browser shows by itself; the rest is kept as a file."""
_TYPES = {"glb": "model/gltf-binary", "dxf": "image/vnd.dxf", "ics": "text/calendar"}
_FALLBACK = "application/octet-stream"


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperLink:
    """A paper: the key of what it is called, its file's name, its address."""

    key: str
    name: str
    link: str


def links(revision: Revision, plan: Plan, names: Sequence[str]) -> tuple[PaperLink, ...]:
    """Return the links to those of the papers that this job has."""
    return tuple(
        PaperLink(
            key=name.replace(".", "-"),
            name=name,
            link=urls.to(urls.PAPER, job=revision.id, paper=name),
        )
        for name in names
        if name not in set(_none(plan))
    )


def _none(plan: Plan) -> Iterator[str]:
    """Yield the papers that this plan goes without."""
    if not any(wall.holes for wall in plan.walls.walls):
        yield "templates.pdf"
    account = plan.agreement.account
    if not (account and account.orders):
        yield "changes.pdf"


@ROUTES.get(urls.PAPER)
def paper(desk: DeskHere, job: str, paper: str) -> Response:
    """Give one paper of a job, made from what stands now."""
    files = papers_of(desk, desk.book.head("job", job))
    if paper not in files:
        raise BookError(Message("web.trouble.no-such-place"))
    kind = _TYPES.get(paper.rpartition(".")[2]) or guess_type(paper)[0] or _FALLBACK
    how = "inline" if kind in _SHOWN else "attachment"
    headers = {"Content-Disposition": f'{how}; filename="{job}-{paper}"'}
    return Response(files[paper], media_type=kind, headers=headers)
