"""The commands: `gaugerod demo`, `new`, `measure`, `options`, `plan`, `replan` and more."""

import json
import sys
from enum import StrEnum
from io import TextIOWrapper
from pathlib import Path
from typing import Annotated

import typer

from gaugerod import __version__
from gaugerod.app.new_job import new_job
from gaugerod.app.rules_page import rules_page
from gaugerod.cli.alarm import Alarm
from gaugerod.cli.choosing import weigh_and_tell
from gaugerod.cli.clock import SystemClock
from gaugerod.cli.given import (
    SIZES,
    WORDS,
    Job,
    MaterialsFolder,
    OutFolder,
    PaperSize,
    PastFile,
    RatesFolder,
    RulesFolder,
    Sheet,
    Within,
)
from gaugerod.cli.keeping import add_backup
from gaugerod.cli.measuring import measure_and_tell, write_blank
from gaugerod.cli.planning import plan_and_tell
from gaugerod.cli.replanning import replan_and_tell
from gaugerod.cli.serving import add_serve
from gaugerod.cli.speech import BAD_INPUT, FORBIDDEN, complain, spoken
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.errors import JobError
from gaugerod.core.base.lengths import IMPERIAL, METRIC
from gaugerod.store.folder import NewFile
from gaugerod.store.job_file import JobFile
from gaugerod.store.schemas import (
    job_schema,
    material_schema,
    on_site_schema,
    past_schema,
    rates_schema,
)
from gaugerod.store.shelf import Library
from gaugerod.store.toml_file import read_bytes
from gaugerod.writers.plan_json import plan_schema


class Document(StrEnum):
    """Documents that have a schema."""

    JOB = "job"
    PLAN = "plan"
    MATERIAL = "material"
    RATES = "rates"
    PAST = "past"
    ON_SITE = "on-site"


class Units(StrEnum):
    """Units of a blank sheet."""

    IMPERIAL = "imperial"
    METRIC = "metric"


_DISPLAYS = {Units.IMPERIAL: IMPERIAL, Units.METRIC: METRIC}
_SCHEMAS = {
    Document.JOB: job_schema,
    Document.PLAN: plan_schema,
    Document.MATERIAL: material_schema,
    Document.RATES: rates_schema,
    Document.PAST: past_schema,
    Document.ON_SITE: on_site_schema,
}


def main() -> None:
    """Run the command line."""
    for stream in (sys.stdout, sys.stderr):
        # A terminal without typographic quotes gets a question mark, not a crash.
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")
    build()()


def build() -> typer.Typer:
    """Return the command line, with its help out of the catalogue."""
    words = WORDS
    cli = typer.Typer(
        name="gaugerod",
        help=words.text("cli.help"),
        add_completion=False,
        no_args_is_help=True,
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
    )
    _add_version(cli, words)
    _add_demo(cli, words)
    _add_new(cli, words)
    _add_measure(cli, words)
    _add_options(cli, words)
    _add_plan(cli, words)
    _add_replan(cli, words)
    _add_rules(cli, words)
    _add_schema(cli, words)
    add_backup(cli, words)
    add_serve(cli, words)
    return cli


def _add_version(cli: typer.Typer, words: Catalogue) -> None:
    def show(wanted: bool) -> None:
        if wanted:
            typer.echo(f"gaugerod {__version__}")
            raise typer.Exit

    @cli.callback()
    def options(
        version: Annotated[
            bool,
            typer.Option("--version", callback=show, is_eager=True, help=words.text("cli.version")),
        ] = False,
    ) -> None:
        """Take the options that stand before a command."""


def _add_demo(cli: typer.Typer, words: Catalogue) -> None:
    @cli.command(help=words.text("cli.demo"))
    def demo(
        out: OutFolder = Path("out"),
        *,
        paper: PaperSize = None,
    ) -> None:
        library = Library()
        size = SIZES[paper] if paper else None
        may_cut = []
        for source in library.demos():
            folder = out / Path(source.name).stem
            may_cut.append(plan_and_tell(source, library, folder, Alarm(), size=size))
            typer.echo()
        typer.echo(words.text("cli.demo-pages"))
        if not all(may_cut):
            raise typer.Exit(FORBIDDEN)


def _add_new(cli: typer.Typer, words: Catalogue) -> None:
    @cli.command(help=words.text("cli.new"))
    def new(
        file: Annotated[Path, typer.Argument(metavar="FILE", help=words.text("cli.new-file"))],
    ) -> None:
        with spoken(words):
            new_job(Library(), NewFile(path=file), SystemClock())
        typer.echo(words.text("cli.made", file=str(file)))


def _add_measure(cli: typer.Typer, words: Catalogue) -> None:
    @cli.command(help=words.text("cli.measure"))
    def measure(
        job: Annotated[
            Path | None, typer.Argument(metavar="JOB", help=words.text("cli.job"))
        ] = None,
        *,
        out: Annotated[
            Path | None, typer.Option(metavar="DIR", help=words.text("cli.measure-out"))
        ] = None,
        materials: MaterialsFolder = None,
        blank: Annotated[bool, typer.Option("--blank", help=words.text("cli.blank"))] = False,
        units: Annotated[Units, typer.Option(help=words.text("cli.units"))] = Units.IMPERIAL,
        paper: Annotated[Sheet | None, typer.Option(help=words.text("cli.paper"))] = None,
    ) -> None:
        if blank == (job is not None):
            complain(words.text("cli.blank-or-job"))
            raise typer.Exit(BAD_INPUT)
        if job is None:
            size = SIZES[paper] if paper else None
            write_blank(Library(), out or Path("out"), _DISPLAYS[units], size)
            return
        source, library = _opened(job, words, materials=materials)
        if not measure_and_tell(source, library, out):
            raise typer.Exit(FORBIDDEN)


def _add_options(cli: typer.Typer, words: Catalogue) -> None:
    @cli.command(help=words.text("cli.options"))
    def options(
        job: Job,
        *,
        out: Annotated[
            Path | None, typer.Option(metavar="DIR", help=words.text("cli.options-out"))
        ] = None,
        ask: Annotated[
            list[str] | None, typer.Option(metavar="CHOICE=VALUE", help=words.text("cli.ask"))
        ] = None,
        materials: MaterialsFolder = None,
        rates: RatesFolder = None,
        past: PastFile = None,
    ) -> None:
        source, library = _opened(job, words, materials=materials, rates=rates)
        weigh_and_tell(source, library, out, ask or (), past=past)


def _add_plan(cli: typer.Typer, words: Catalogue) -> None:
    @cli.command(help=words.text("cli.plan"))
    def plan(
        job: Job,
        *,
        out: OutFolder = Path("out"),
        materials: MaterialsFolder = None,
        rates: RatesFolder = None,
        past: PastFile = None,
        rules: RulesFolder = None,
        within: Within = None,
        paper: PaperSize = None,
    ) -> None:
        source, library = _opened(job, words, materials=materials, rates=rates, rules=rules)
        size = SIZES[paper] if paper else None
        stop = Alarm(seconds=within)
        if not plan_and_tell(source, library, out, stop, past=past, size=size):
            raise typer.Exit(FORBIDDEN)


def _add_replan(cli: typer.Typer, words: Catalogue) -> None:
    @cli.command(help=words.text("cli.replan"))
    def replan(
        job: Job,
        days: Annotated[Path, typer.Argument(metavar="DAYS", help=words.text("cli.days"))],
        *,
        out: OutFolder = Path("out"),
        materials: MaterialsFolder = None,
        rates: RatesFolder = None,
        rules: RulesFolder = None,
        within: Within = None,
        paper: PaperSize = None,
    ) -> None:
        source, library = _opened(job, words, materials=materials, rates=rates, rules=rules)
        size = SIZES[paper] if paper else None
        if not replan_and_tell(source, days, library, out, Alarm(seconds=within), size=size):
            raise typer.Exit(FORBIDDEN)


def _add_rules(cli: typer.Typer, words: Catalogue) -> None:
    @cli.command(help=words.text("cli.rules"))
    def rules(
        own: Annotated[
            Path | None, typer.Option("--rules", metavar="DIR", help=words.text("cli.rules-folder"))
        ] = None,
    ) -> None:
        with spoken(words):
            page = rules_page(Library(own_rules=own).rules(), words)
        typer.echo(page, nl=False)


def _opened(
    job: Path,
    words: Catalogue,
    *,
    materials: Path | None,
    rates: Path | None = None,
    rules: Path | None = None,
) -> tuple[JobFile, Library]:
    """Return a job file and the library that goes with it: folders named, or beside the job."""
    library = Library(
        own_materials=materials or _beside(job, "materials"),
        own_rates=rates or _beside(job, "rates"),
        own_rules=rules or _beside(job, "rules"),
    )
    with spoken(words):
        return JobFile(name=str(job), source=read_bytes(job, error=JobError)), library


def _beside(job: Path, name: str) -> Path | None:
    folder = job.parent / name
    return folder if folder.is_dir() else None


def _add_schema(cli: typer.Typer, words: Catalogue) -> None:
    @cli.command(help=words.text("cli.schema"))
    def schema(
        document: Annotated[Document, typer.Argument(help=words.text("cli.document"))],
    ) -> None:
        typer.echo(json.dumps(_SCHEMAS[document](), indent=2, ensure_ascii=False))
