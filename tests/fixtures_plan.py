"""Plans of the packaged jobs, made once, and the packaged sentences."""

from functools import cache

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import IMPERIAL, METRIC, Display
from gaugerod.core.job.consistent import consistent
from gaugerod.core.job.document import Accent, Job
from gaugerod.core.job.materials import Materials
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
def banded_plan() -> Plan:
    """The tiled alcove with a band of slate in courses 3 and 4, and small tile in its niche."""
    library = Library()
    source = next(demo for demo in library.demos() if demo.name == "niche-tile.toml")
    job = source.read(accept)
    tile = library.materials().systems[job.choices.material]
    slate = tile.model_copy(
        update={"id": "slate", "name": "Slate", "price": 5280, "per_box": 6, "lead_days": 21}
    )
    cutting = tile.cutting.model_copy(update={"least": 20.0})
    small = tile.model_copy(
        update={
            "id": "small",
            "name": "Small tile",
            "face": (147.0, 72.0),
            "cutting": cutting,
            "weight": 0.3,
            "per_box": 40,
        }
    )
    rows = (
        Accent(material="slate", courses=(3, 4)),
        Accent(material="small", inside="niche"),
    )
    banded = job.model_copy(update={"choices": job.choices.model_copy(update={"accent": rows})})
    materials = Materials(systems={tile.id: tile, "slate": slate, "small": small})
    consistent(banded, materials)
    return plan(banded, materials, library.rules(), library.rates()[job.rates])


@cache
def words_in(display: Display) -> Catalogue:
    """The packaged sentences."""
    return Library().words(display, currency="USD" if display is IMPERIAL else "GBP")


INCHES, MILLIMETRES = IMPERIAL, METRIC
