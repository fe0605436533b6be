"""What several commands are given: files, folders, limits, each with its line of help."""

from enum import StrEnum
from pathlib import Path
from typing import Annotated, TypeAlias

import typer

from gaugerod.cli.planning import default_words
from gaugerod.packet.paper import Size
from gaugerod.store.shelf import Library

WORDS = default_words(Library())
"""The sentences that the commands are described in."""


class Sheet(StrEnum):
    """Sizes of a sheet."""

    LETTER = "letter"
    A4 = "a4"


SIZES: dict[Sheet, Size] = {Sheet.LETTER: "us-letter", Sheet.A4: "a4"}

Job: TypeAlias = Annotated[Path, typer.Argument(metavar="JOB", help=WORDS.text("cli.job"))]
OutFolder: TypeAlias = Annotated[Path, typer.Option(metavar="DIR", help=WORDS.text("cli.out"))]
MaterialsFolder: TypeAlias = Annotated[
    Path | None, typer.Option(metavar="DIR", help=WORDS.text("cli.materials"))
]
RatesFolder: TypeAlias = Annotated[
    Path | None, typer.Option(metavar="DIR", help=WORDS.text("cli.rates"))
]
RulesFolder: TypeAlias = Annotated[
    Path | None, typer.Option(metavar="DIR", help=WORDS.text("cli.rules-folder"))
]
PastFile: TypeAlias = Annotated[
    Path | None, typer.Option(metavar="FILE", help=WORDS.text("cli.past"))
]
Within: TypeAlias = Annotated[
    float | None, typer.Option(metavar="SECONDS", min=1, help=WORDS.text("cli.within"))
]
PaperSize: TypeAlias = Annotated[Sheet | None, typer.Option(help=WORDS.text("cli.paper-size"))]
