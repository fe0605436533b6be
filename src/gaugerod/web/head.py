"""What stands at the head of every page of a job: which it is, and the way round."""

from dataclasses import dataclass
from datetime import datetime

from gaugerod.app.job_book import Revision
from gaugerod.web import urls

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Tab:
    """A page of the job; `here` is the one that is shown."""

    name: str
    link: str
    here: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class JobHead:
    """A job, the revision that is shown, and its pages in the order of the work."""

    id: str
    title: str
    n: int
    by: str
    at: datetime
    tabs: tuple[Tab, ...]


def head_of(revision: Revision, here: str) -> JobHead:
    """Return the head of a page of a job; `here` is the page's name."""
    return JobHead(
        id=revision.id,
        title=revision.title,
        n=revision.n,
        by=revision.by,
        at=revision.at,
        tabs=tuple(
            Tab(name=name, link=urls.to(address, job=revision.id), here=name == here)
            for name, address in _ROUND
        ),
    )
