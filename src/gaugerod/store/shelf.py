"""The data beside the jobs: what is packaged, and the user's own, which beats it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from importlib.resources import files
from importlib.resources.abc import Traversable
from itertools import chain
from pathlib import Path
from typing import Literal, Protocol, TypeVar

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.errors import MaterialError
from gaugerod.core.base.lengths import Display
from gaugerod.core.base.messages import Message
from gaugerod.core.checks.measures import MEASURES
from gaugerod.core.job.fields import Document
from gaugerod.core.job.materials import Materials, System
from gaugerod.core.job.places import Places
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.rules import Rule, Rules
from gaugerod.core.job.sizes import module_sizes
from gaugerod.core.job.tolerances import Tolerances
from gaugerod.store.job_file import JobFile
from gaugerod.store.likeness import LIKE, completed
from gaugerod.store.toml_file import TomlFile, document, read_bytes, read_toml
from gaugerod.store.words import sentences

DATA = files("gaugerod") / "data"
_TEMPLATE = "new"


class _Identified(Protocol):
    @property
    def id(self) -> str: ...


K = TypeVar("K", bound=_Identified)
D = TypeVar("D", bound=Document)


@dataclass(frozen=True, slots=True, kw_only=True)
class Library:
    """Packaged data, and the user's own: folders, where given, and what a book keeps."""

    own_materials: Path | None = None
    own_rates: Path | None = None
    own_rules: Path | None = None
    kept_materials: tuple[TomlFile, ...] = ()
    kept_rates: tuple[TomlFile, ...] = ()

    def materials(self) -> Materials:
        """Return every material by its id.

        Raises
        ------
        MaterialError
            A file is no material, is like one that is not there, or two of the user's have one
            id.
        """
        packaged, own = (
            list(_packaged("materials")),
            [*_own(self.own_materials), *self.kept_materials],
        )
        whole = {
            str(file.tables.get("id")): file.tables
            for file in (*packaged, *own)
            if LIKE not in file.tables
        }
        ours = _by_id(_systems(completed(packaged, whole)))
        return Materials(systems=ours | _by_id(_systems(completed(own, whole))))

    def files(self, kind: Literal["materials", "rates"]) -> Mapping[str, TomlFile]:
        """Return the tables of every material, or of all rates, by id; each of them whole.

        Raises
        ------
        MaterialError
            A file is no TOML, or is like a material that is not there.
        """
        materials = kind == "materials"
        own = self.own_materials if materials else self.own_rates
        kept = self.kept_materials if materials else self.kept_rates
        found = {str(file.tables.get("id")): file for file in (*_packaged(kind), *_own(own), *kept)}
        whole = {name: file.tables for name, file in found.items() if LIKE not in file.tables}
        return dict(zip(found, completed(found.values(), whole), strict=True))

    def rates(self) -> Mapping[str, RateTable]:
        """Return every table of rates by its id.

        Raises
        ------
        MaterialError
            A file is no table of rates, or two of the user's have one id.
        """
        packaged = _by_id(_documents(_packaged("rates"), RateTable))
        own = chain(_own(self.own_rates), self.kept_rates)
        return packaged | _by_id(_documents(own, RateTable))

    def rules(self) -> Rules:
        """Return all rules as one set, with limits for flat walls, and what places say of deposits.

        One of the user's takes the place of its namesake.

        Raises
        ------
        MaterialError
            A file holds no rules, or names a measure that the checks don't know.
        """
        packaged = {rule.id: rule for rule in _rules(_packaged("rules"))}
        own = {rule.id: rule for rule in _rules(_own(self.own_rules))}
        laws = [places for _, places in _documents(_packaged("places"), Places)]
        return Rules(
            format=1,
            unit="mm",
            rule=tuple((packaged | own).values()),
            tolerance=self.tolerances().tolerance,
            place=tuple(place for part in laws for place in part.place),
        )

    def tolerances(self) -> Tolerances:
        """Return all limits for flat, plumb and level as one set.

        One of the user's, in a file of rules, takes the place of its namesake.
        """
        sets = [limits for _, limits in _documents(_packaged("tolerances"), Tolerances)]
        packaged = {row.id: row for part in sets for row in part.tolerance}
        own = [rules for _, rules in _documents(_own(self.own_rules), Rules)]
        rows = packaged | {row.id: row for part in own for row in part.tolerance}
        return Tolerances(format=1, unit="mm", tolerance=tuple(rows.values()))

    def words(self, display: Display, *, currency: str) -> Catalogue:
        """Return the sentences, with lengths and money as the reader wants them."""
        text = (DATA / "text" / "en.toml").read_text(encoding="utf-8")
        return Catalogue(sentences=sentences(text), display=display, currency=currency)

    def template(self) -> str:
        """Return the job to be written over."""
        return (DATA / "jobs" / f"{_TEMPLATE}.toml").read_text(encoding="utf-8")

    def demos(self) -> tuple[JobFile, ...]:
        """Return the packaged jobs that show the program, by name."""
        template = f"{_TEMPLATE}.toml"
        return tuple(
            JobFile(name=file.name, source=file.read_bytes())
            for file in _toml_files(DATA / "jobs")
            if file.name != template
        )


def _toml_files(folder: Traversable) -> list[Traversable]:
    found = [file for file in folder.iterdir() if file.name.endswith(".toml")]
    return sorted(found, key=lambda file: file.name)


def _packaged(kind: str) -> Iterator[TomlFile]:
    for file in _toml_files(DATA / kind):
        yield read_toml(file.read_bytes(), name=file.name, error=MaterialError)


def _own(folder: Path | None) -> Iterator[TomlFile]:
    if folder is None:
        return
    try:
        found = sorted(path for path in folder.iterdir() if path.suffix == ".toml")
    except OSError as error:
        why = error.strerror or type(error).__name__
        raise MaterialError(Message("read.no-folder", folder=str(folder), why=why)) from error
    for path in found:
        source = read_bytes(path, error=MaterialError)
        yield read_toml(source, name=str(path), error=MaterialError)


def _documents(found: Iterator[TomlFile], model: type[D]) -> Iterator[tuple[TomlFile, D]]:
    for file in found:
        yield file, document(file, model, error=MaterialError)


def _systems(found: Iterator[TomlFile]) -> Iterator[tuple[TomlFile, System]]:
    for file, system in _documents(found, System):
        for fault in module_sizes(system):
            raise MaterialError(file.at(fault.at, fault.wrong))
        yield file, system


def _rules(found: Iterator[TomlFile]) -> Iterator[Rule]:
    for file, rules in _documents(found, Rules):
        for number, rule in enumerate(rules.rule):
            if rule.measure not in MEASURES:
                wrong = Message("checks.unknown-measure", rule=rule.id, measure=rule.measure)
                raise MaterialError(file.at(("rule", number, "measure"), wrong))
        yield from rules.rule


def _by_id(found: Iterator[tuple[TomlFile, K]]) -> dict[str, K]:
    known: dict[str, tuple[TomlFile, K]] = {}
    for file, one in found:
        if one.id in known:
            twice = Message("read.id-twice", id=one.id, file=known[one.id][0].name)
            raise MaterialError(file.at(("id",), twice))
        known[one.id] = (file, one)
    return {name: one for name, (_, one) in known.items()}
