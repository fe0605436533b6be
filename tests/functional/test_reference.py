"""The reference pages say what the program does."""

import json
import re
import tomllib
from collections.abc import Callable, Mapping
from datetime import date, time
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import typer
from typer.main import get_command
from typer.testing import Result

from gaugerod.cli.main import build
from gaugerod.core.job.materials import System
from gaugerod.store.shelf import DATA, Library

DOCS = Path(__file__).parents[2] / "docs"
REFERENCE = DOCS / "reference"
COMMANDS = (REFERENCE / "commands.md").read_text(encoding="utf-8")


def plain(value: object) -> object:
    """TOML as JSON: days and times as text."""
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [plain(one) for one in value]
    return value.isoformat() if isinstance(value, date | time) else value


def schema(name: str) -> Mapping[str, Any]:
    text = (REFERENCE / f"{name}.schema.json").read_text(encoding="utf-8")
    found: Mapping[str, Any] = json.loads(text)
    return found


@pytest.mark.parametrize("name", ["job", "plan", "material", "rates", "past", "on-site"])
def test_a_published_schema_is_that_of_the_program(run: Callable[..., Result], name: str) -> None:
    file = REFERENCE / f"{name}.schema.json"
    renew = f"renew it: python -m gaugerod schema {name} > docs/reference/{file.name}"
    assert file.read_text(encoding="utf-8") == run("schema", name).stdout, renew


def test_the_page_of_rules_is_that_of_the_program(run: Callable[..., Result]) -> None:
    renew = "renew it: python -m gaugerod rules > docs/reference/rules.md"
    page = (REFERENCE / "rules.md").read_text(encoding="utf-8")
    assert page == run("rules").stdout, renew
    for rule in Library().rules().rule:
        assert page.count(f"| `{rule.id}`: ") == 1


@pytest.mark.parametrize(
    ("kind", "folder"), [("job", "jobs"), ("material", "materials"), ("rates", "rates")]
)
def test_packaged_files_are_as_their_schema_says(kind: str, folder: str) -> None:
    for path in (DATA / folder).iterdir():
        if path.name.endswith(".toml"):
            jsonschema.validate(
                plain(tomllib.loads(path.read_text(encoding="utf-8"))), schema(kind)
            )


def test_a_job_to_be_mended_is_not_as_the_schema_says() -> None:
    tables = plain(tomllib.loads(Library().template()))
    assert isinstance(tables, dict)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(tables | {"unit": "inch"}, schema("job"))


def test_every_command_and_option_is_on_its_page() -> None:
    cli = get_command(build())
    assert isinstance(cli, typer.core.TyperGroup)
    for name, command in cli.commands.items():
        assert f"## `gaugerod {name}" in COMMANDS
        for parameter in command.params:
            for option in parameter.opts:
                if option.startswith("--") and option != "--help":
                    assert f"`{option}" in COMMANDS
    named = set(re.findall(r"`(--[a-z]+)", COMMANDS))
    real = {option for c in cli.commands.values() for p in c.params for option in p.opts}
    assert named <= real | {"--version", "--help"}


@pytest.mark.parametrize(
    "page",
    [
        "how-to/own-module.md",
        "how-to/several-products.md",
        "how-to/own-rules.md",
        "how-to/first-job.md",
        "how-to/price.md",
        "how-to/days.md",
    ],
)
def test_examples_of_toml_can_be_read(page: str) -> None:
    text = (DOCS / page).read_text(encoding="utf-8")
    examples = re.findall(r"```toml\n(.*?)```", text, re.DOTALL)
    assert examples
    for example in examples:
        tomllib.loads(example)


def test_the_module_of_the_guide_can_be_planned_with(
    run: Callable[..., Result], tmp_path: Path
) -> None:
    text = (DOCS / "how-to" / "own-module.md").read_text(encoding="utf-8")
    example, goods, sheet = re.findall(r"```toml\n(.*?)```", text, re.DOTALL)
    (tmp_path / "materials").mkdir()
    (tmp_path / "materials" / "mine.toml").write_text(example + goods, encoding="utf-8")
    job = tmp_path / "job.toml"
    job.write_text(Library().template().replace("keyed-24x12", "my-module"), encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out")
    assert result.exit_code == 0
    for name in ("My keyed module 24 x 12", "Liquid membrane", "Backer board", "Backer screws"):
        assert name in result.stdout
    # What a sheet has otherwise makes a sheet of it, once its keys are off.
    raw = {**tomllib.loads(example), **tomllib.loads(sheet), "edges": {}, "key_depth": 0}
    made = System.model_validate(raw, context={"unit": "in"})
    assert (made.kind, [trim.use for trim in made.trim]) == ("sheet", ["seam"])


def test_the_answers_and_rules_of_the_guide_hold(
    run: Callable[..., Result], tmp_path: Path
) -> None:
    text = (DOCS / "how-to" / "own-rules.md").read_text(encoding="utf-8")
    answers, rules = re.findall(r"```toml\n(.*?)```", text, re.DOTALL)
    (tmp_path / "rules").mkdir()
    # The lining of the template is higher than the 80 in of the guide's town.
    higher = rules.replace("limit = 80", "limit = 100")
    (tmp_path / "rules" / "ours.toml").write_text(higher, encoding="utf-8")
    job = tmp_path / "job.toml"
    template = Library().template()
    start, end = template.index("[site]"), template.index("[survey]")
    job.write_text(template[:start] + answers + "\n" + template[end:], encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out")
    assert result.exit_code == 0, result.output
    assert "Look: Round a shower the lining reaches 80 in above the floor." in result.stdout
    assert "Look: We keep water off sealant for two days." in result.stdout
    plan = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))
    found = [one["rule"] for one in plan["findings"]]
    assert found.count("finish-above-floor") == 1
    assert not {"one-lot", "layout-signed"} & set(found)
    printed = run("rules", "--rules", tmp_path / "rules").stdout
    assert "`our-sealant`: We keep water off sealant for two days." in printed
