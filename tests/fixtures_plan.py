"""Plans of the packaged jobs, made once, and the packaged sentences."""

from functools import cache

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import IMPERIAL, METRIC, Display
from gaugerod.core.job.document import Job
from gaugerod.core.pipeline import Plan, plan
from gaugerod.store.shelf import Library


@cache
def planned(name: str) -> Plan:
    """The plan of a packaged job."""
    library = Library()
    source = next(demo for demo in library.demos() if demo.name == f"{name}.toml")
    job = source.read(accept)
    return plan(job, library.materials(), library.rules(), library.rates()[job.rates])


def accept(job: Job) -> None:
    """Find nothing wrong with a job."""


def keyed_plan() -> Plan:
    """A keyed alcove with a window, in inches."""
    return planned("alcove-1962")


def tiled_plan() -> Plan:
    """A tiled alcove with a niche and a valve on a joint, in millimetres."""
    return planned("niche-tile")


@cache
def words_in(display: Display) -> Catalogue:
    """The packaged sentences."""
    return Library().words(display, currency="USD" if display is IMPERIAL else "GBP")


INCHES, MILLIMETRES = IMPERIAL, METRIC
