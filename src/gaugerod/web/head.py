"""What stands at the head of every page of a job: which it is, and the way round."""

from dataclasses import dataclass
from datetime import datetime

from gaugerod.app.job_book import Revision
from gaugerod.web import urls
from gaugerod.web.own.family import family_of

_ROUND = (
    ("about", urls.ABOUT),
    ("measure", urls.MEASURE),
    ("set-out", urls.SET_OUT),
    ("price", urls.PRICE),
    ("order", urls.ORDER),
    ("ready", urls.READY),
    ("cut", urls.CUT),
    ("hand-over", urls.HAND_OVER),
)


_OWN_ROUND = (("own", urls.OWN_ONE), ("own-past", urls.OWN_PAST))


@dataclass(frozen=True, slots=True, kw_only=True)
class Tab:
    """A page of the job; `here` is the one that is shown."""

    name: str
    link: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class JobHead:
    """A job, the revision that is shown, and its pages in the order of the work.

    Or a material or a table of rates: it is `opened` and has a `history` as a job has.
    """

    id: str
    title: str
    n: int
    by: str
    at: datetime
    tabs: tuple[Tab, ...]
    opened: str
    history: str
    family: str = ""


def head_of(revision: Revision, here: str) -> JobHead:
    """Return the head of a page of a job; `here` is the page's name."""
    job = revision.kind == "job"
    where = {"job": revision.id} if job else _own(revision)
    return JobHead(
        id=revision.id,
        title=revision.title,
        n=revision.n,
        by=revision.by,
        at=revision.at,
        tabs=tuple(
            Tab(name=name, link=urls.to(address, **where), here=name == here)
            for name, address in (_ROUND if job else _OWN_ROUND)
        ),
        opened=urls.to(urls.JOB if job else urls.OWN_ONE, **where),
        history=urls.to(urls.HISTORY if job else urls.OWN_PAST, **where),
        family=where.get("family", ""),
    )


def _own(revision: Revision) -> dict[str, str]:
    return {"family": family_of(revision.kind).name, "name": revision.id}
