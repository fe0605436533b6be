"""The data beside the jobs are read once, until the book keeps others."""

from collections import Counter
from collections.abc import Mapping
from typing import ClassVar

from tests.web_pages import MORNING, Browser

from gaugerod.app.job_book import Draft
from gaugerod.core.base.lengths import IMPERIAL, METRIC
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.rates import RateTable
from gaugerod.store.shelf import Library
from gaugerod.web.desk import library
from gaugerod.web.read_once import ReadOnce


class Counting(Library):
    """A library that counts how often it was read."""

    read: ClassVar[Counter[str]] = Counter()

    def materials(self) -> Materials:
        self.read["materials"] += 1
        return super().materials()

    def rates(self) -> Mapping[str, RateTable]:
        self.read["rates"] += 1
        return super().rates()


def test_each_part_is_read_once() -> None:
    shelf = ReadOnce(Counting())
    assert shelf.materials() is shelf.materials()
    assert shelf.rates() is shelf.rates()
    assert Counting.read == {"materials": 1, "rates": 1}
    assert shelf.rules() is shelf.rules()
    assert shelf.tolerances() is shelf.tolerances()
    assert shelf.words(METRIC, currency="GBP") is shelf.words(METRIC, currency="GBP")
    assert shelf.words(IMPERIAL, currency="GBP").display == IMPERIAL
    assert shelf.template() == Library().template()


def test_what_the_book_comes_to_keep_is_there(at: Browser) -> None:
    desk = at.desk
    before = library(desk)
    assert library(desk) is before
    document = {"id": "own-rates", "like": "shop", "name": "Own", "currency": "USD"}
    desk.book.write(
        Draft(kind="rates", id="own-rates", seen=0, key="k", by="", at=MORNING, document=document)
    )
    assert library(desk) is not before
