import pytest

from gaugerod.core.base.errors import JobError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Job
from gaugerod.core.job.faults import InconsistentError
from gaugerod.core.job.on_site import OnSite
from gaugerod.store.book.canon import canonical, tables
from gaugerod.store.job_file import JobFile
from gaugerod.store.kept import KeptDays, KeptJob, kept_file, to_keep
from gaugerod.store.on_site_file import OnSiteFile
from gaugerod.store.shelf import DATA, Library

DAYS = b"""format = 1
unit = "in"
[[day]]
on = 2026-03-05
set = ["B1", "B2-1"]
[[day.reading]]
wall = "B"
reading = { kind = "width", at = 48, reads = "59 13/16" }
"""


def said(_: Job) -> None:
    """Find nothing wrong."""


@pytest.mark.parametrize("name", [path.name for path in (DATA / "jobs").iterdir()])
def test_a_job_out_of_a_book_is_the_job_of_the_file(name: str) -> None:
    source = (DATA / "jobs" / name).read_bytes()
    document = tables(canonical(to_keep(source, name=name)))
    kept = KeptJob(name=name, tables=document)
    assert kept.read(said) == JobFile(name=name, source=source).read(said)


def test_days_out_of_a_book_are_the_days_of_the_file() -> None:
    def same(days: OnSite) -> OnSite:
        return days

    document = tables(canonical(to_keep(DAYS, name="days")))
    kept = KeptDays(name="days", tables=document).use(same)
    assert kept == OnSiteFile(name="days", source=DAYS).use(same)
    assert kept.day[0].set == ("B1", "B2-1")


def test_times_and_moments_are_kept_as_text() -> None:
    source = b"opens = 08:00:00\nat = 2026-03-05T09:00:00\ndays = [2026-03-05, { on = 2026-03-06 }]"
    assert to_keep(source, name="x") == {
        "opens": "08:00:00",
        "at": "2026-03-05T09:00:00",
        "days": ["2026-03-05", {"on": "2026-03-06"}],
    }


def test_what_is_wrong_is_told_with_its_place() -> None:
    document = to_keep(Library().template().encode(), name="hall-bath")
    document["wall"][0]["name"] = "back wall"
    with pytest.raises(JobError) as caught:
        KeptJob(name="hall-bath", tables=document).read(said)
    told = caught.value.message
    assert (told.key, told.values["file"]) == ("read.in-file", "hall-bath")

    def refuse(_: Job) -> None:
        raise InconsistentError(Message("field.negative"), at=("wall", 0))

    document["wall"][0]["name"] = "L"
    with pytest.raises(JobError) as caught:
        KeptJob(name="hall-bath", tables=document).read(refuse)
    assert caught.value.message.values["wrong"] == Message("field.negative")


def test_what_is_no_toml_is_not_kept() -> None:
    with pytest.raises(JobError):
        to_keep(b"wall = [", name="x")


def test_a_library_has_what_is_kept_beside_the_packaged() -> None:
    source = (DATA / "materials" / "tile-600x300.toml").read_bytes()
    mine = to_keep(source.replace(b'id = "tile-600x300"', b'id = "mine"'), name="mine")
    rates = to_keep((DATA / "rates" / "shop.toml").read_bytes(), name="shop")
    rates["id"] = "my-shop"
    library = Library(
        kept_materials=(kept_file("mine", mine),),
        kept_rates=(kept_file("my-shop", rates),),
    )
    systems = library.materials().systems
    assert systems["mine"].face == systems["tile-600x300"].face
    assert library.rates()["my-shop"].currency == library.rates()["shop"].currency
