"""The data beside the jobs, each part read and checked once, and not again for every job."""

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, TypeVar

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import Display
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.tolerances import Tolerances
from gaugerod.store.shelf import Library
from gaugerod.store.toml_file import TomlFile
from gaugerod.web.cache import Cache

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class ReadOnce:
    """A library that keeps what it read. It stands for one state of the book and its folders."""

    library: Library
    read: Cache[Any] = field(default_factory=Cache)

    def materials(self) -> Materials:
        """Return every material at hand."""
        return self._kept("materials", self.library.materials)

    def rules(self) -> Rules:
        """Return the rules that findings are held against."""
        return self._kept("rules", self.library.rules)

    def tolerances(self) -> Tolerances:
        """Return how flat, plumb and level walls must be."""
        return self._kept("tolerances", self.library.tolerances)

    def rates(self) -> Mapping[str, RateTable]:
        """Return the tables of rates by their id."""
        return self._kept("rates", self.library.rates)

    def files(self, kind: Literal["materials", "rates"]) -> Mapping[str, TomlFile]:
        """Return the tables of every material, or of all rates, by id; each of them whole."""
        return self._kept(("files", kind), lambda: self.library.files(kind))

    def words(self, display: Display, *, currency: str) -> Catalogue:
        """Return the sentences, with lengths and money as the reader wants them."""
        key = "words", display, currency
        return self._kept(key, lambda: self.library.words(display, currency=currency))

    def template(self) -> str:
        """Return a job to be written over."""
        return self.library.template()

    def _kept(self, key: Hashable, work: Callable[[], T]) -> T:
        found: T = self.read.get(key, work)
        return found
