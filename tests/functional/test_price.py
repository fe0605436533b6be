"""Money from end to end: contract and changes, past jobs, rates by place."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from typer.testing import Result

from gaugerod.store.shelf import DATA, Library

Run = Callable[..., Result]

SIGNED = """
[contract]
sum = 6928.43
signed = 2026-02-20

[[change]]
what = "New sill plate"
why = "Rot, photo 12"
price = 240.00
signed = 2026-03-05

[[change]]
what = "A second niche"
why = "Asked for"
price = 310.00
"""
PAST = """
format = 1
[[job]]
name = "Hall bath"
task = [{ id = "demo", estimated = 8.0, actual = 12.0 }]
"""


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "job.toml"
    path.write_text(Library().template(), encoding="utf-8")
    return path


def price_of(out: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((out / "plan.json").read_text(encoding="utf-8"))["price"]
    return found


def test_a_contract_keeps_its_sum_and_its_changes_run(run: Run, job: Path, tmp_path: Path) -> None:
    job.write_text(job.read_text(encoding="utf-8") + SIGNED, encoding="utf-8")
    out = tmp_path / "out"
    result = run("plan", job, "--out", out)
    assert result.exit_code == 0
    assert "Contract of 2026-02-20: $6,928.43; with what was signed since: $7,168.43." in (
        result.stdout
    )
    assert "changes.pdf" in result.stdout
    assert (out / "changes.pdf").read_bytes().startswith(b"%PDF")
    price = price_of(out)
    assert [(one["before"], one["after"]) for one in price["contract"]["changes"]] == [
        (692_843, 716_843),
        (716_843, 747_843),
    ]
    assert price["contract"]["total"] == 716_843
    assert price["payments"]["total"] == 692_843
    assert sum(one["due"] for one in price["payments"]["payments"]) == 692_843


def test_hours_are_learned_only_when_asked(run: Run, job: Path, tmp_path: Path) -> None:
    past = tmp_path / "past.toml"
    past.write_text(PAST, encoding="utf-8")
    plain, taught = tmp_path / "plain", tmp_path / "taught"
    before = run("plan", job, "--out", plain)
    after = run("plan", job, "--out", taught, "--past", past)
    assert (before.exit_code, after.exit_code) == (0, 0)
    assert "  demo: hours × 1.18, in nine cases of ten between 0.86 and 1.62" in after.stdout
    assert "demo: hours" not in before.stdout
    minutes = [
        {task["id"]: task["minutes"] for task in price_of(out)["tasks"]} for out in (plain, taught)
    ]
    assert minutes[1].pop("demo") == pytest.approx(1.18078 * minutes[0].pop("demo"), abs=1)
    assert minutes[0] == minutes[1]
    assert price_of(taught)["price"] > price_of(plain)["price"]


def test_options_are_priced_at_what_was_learned_too(run: Run, job: Path, tmp_path: Path) -> None:
    past = tmp_path / "past.toml"
    past.write_text(PAST, encoding="utf-8")
    taught = run("options", job, "--past", past)
    assert taught.exit_code == 0
    assert taught.stdout != run("options", job).stdout


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (PAST.replace("actual = 12.0", "actual = 0"), "actual: 0 is too small."),
        (PAST.replace("estimated", "planned"), "means nothing here"),
    ],
)
def test_past_jobs_that_cannot_be_read_are_told(
    run: Run, job: Path, tmp_path: Path, text: str, said: str
) -> None:
    past = tmp_path / "past.toml"
    past.write_text(text, encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out", "--past", past)
    assert result.exit_code == 2
    (line,) = result.stderr.splitlines()
    assert line.startswith(f"{past}:5: ")
    assert said in line


def test_another_place_has_its_own_tax_and_its_own_law(run: Run, job: Path, tmp_path: Path) -> None:
    shop = (DATA / "rates" / "shop.toml").read_text(encoding="utf-8")
    folder = tmp_path / "rates"
    folder.mkdir()
    there = shop.replace("deposit = 0.10", "deposit = 0.20").replace("share = 0.40", "share = 0.30")
    there += "\n[place.US-CA]\ntax = 0.0\nfreight = 0\n"
    (folder / "shop.toml").write_text(there, encoding="utf-8")
    prices = {}
    for region in ("US-IL", "US-CA"):
        text = Library().template().replace('region = ""', f'region = "{region}"')
        job.write_text(text, encoding="utf-8")
        result = run("plan", job, "--out", tmp_path / region)
        assert result.exit_code == 0
        prices[region] = price_of(tmp_path / region)
    assert prices["US-IL"]["tax"] > 0 == prices["US-CA"]["tax"]
    assert prices["US-CA"]["freight"] == 0
    california = prices["US-CA"]["payments"]
    assert california["capped"]
    assert california["cap"] == california["payments"][0]["due"] == prices["US-CA"]["price"] // 10
    assert prices["US-IL"]["payments"]["cap"] is None


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (("markup = 0.50", "markup = 0.50\nmargin = 0.3"), "Give “markup”"),
        (("deposit = 0.10", "deposit = 0.20"), "110"),
        (("low = 0.75", "low = 7.5"), "Hours go from low through likely to high"),
    ],
)
def test_rates_that_contradict_themselves_are_told(
    run: Run, job: Path, tmp_path: Path, change: tuple[str, str], said: str
) -> None:
    shop = (DATA / "rates" / "shop.toml").read_text(encoding="utf-8")
    folder = tmp_path / "rates"
    folder.mkdir()
    (folder / "shop.toml").write_text(shop.replace(*change, 1), encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "out")
    assert result.exit_code == 2
    (line,) = result.stderr.splitlines()
    assert line.startswith(str(folder / "shop.toml"))
    assert said in line


def test_factors_of_the_job_make_its_work_dearer(run: Run, job: Path, tmp_path: Path) -> None:
    plain = job.read_text(encoding="utf-8")
    assert run("plan", job, "--out", tmp_path / "plain").exit_code == 0
    job.write_text('factors = ["occupied"]\n' + plain, encoding="utf-8")
    assert run("plan", job, "--out", tmp_path / "lived-in").exit_code == 0
    easy, hard = (price_of(tmp_path / name) for name in ("plain", "lived-in"))
    assert hard["minutes"] == pytest.approx(1.1 * easy["minutes"], abs=len(easy["tasks"]))
    assert hard["price"] > easy["price"]
    job.write_text('factors = ["ocupied"]\n' + plain, encoding="utf-8")
    result = run("plan", job, "--out", tmp_path / "none")
    assert result.exit_code == 2
    (line,) = result.stderr.splitlines()
    assert "“ocupied” is none of the factors of these rates: first-time, floor, occupied." in line
