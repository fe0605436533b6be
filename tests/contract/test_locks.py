"""The locks name every package by version and hash, hold what the project asks, and no address."""

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
BUILD = PROJECT["dependency-groups"]["build"]
RUN = PROJECT["project"]["dependencies"] + BUILD
RUN_LOCK = "requirements.lock"
WANTED = {
    RUN_LOCK: RUN,
    "requirements-dev.lock": RUN + PROJECT["dependency-groups"]["dev"],
    "requirements-docs.lock": RUN + PROJECT["dependency-groups"]["docs"],
}
ENTRY = re.compile(r"([a-z0-9-]+)(\[[a-z0-9,-]+\])?==\S+( ; .+)?( --hash=sha256:[0-9a-f]{64})+")


def entries(lock: str) -> list[str]:
    """The requirements of a lock, one string each, without comments and line breaks."""
    text = (ROOT / lock).read_text(encoding="utf-8")
    text = "\n".join(line for line in text.splitlines() if not line.lstrip().startswith("#"))
    return re.sub(r" *\\\n *", " ", text).splitlines()


def name_of(requirement: str) -> str:
    return re.split(r"[ =<>~!;\[]", requirement, maxsplit=1)[0].lower()


@pytest.mark.parametrize("lock", WANTED)
def test_every_entry_is_a_version_with_its_hashes(lock: str) -> None:
    assert [entry for entry in entries(lock) if not ENTRY.fullmatch(entry)] == []


@pytest.mark.parametrize("lock", WANTED)
def test_a_lock_holds_what_the_project_asks_for(lock: str) -> None:
    assert {name_of(wanted) for wanted in WANTED[lock]} <= {name_of(e) for e in entries(lock)}


@pytest.mark.parametrize("lock", WANTED)
def test_a_lock_holds_no_address(lock: str) -> None:
    text = (ROOT / lock).read_text(encoding="utf-8")
    assert not re.findall(r"\S*://\S*|--(?:extra-)?index-url.*|--find-links.*", text)


@pytest.mark.parametrize("lock", ["requirements-dev.lock", "requirements-docs.lock"])
def test_the_locks_agree(lock: str) -> None:
    # What the program needs on one system only, a tool may need on all of them.
    there = set(entries(lock))
    everywhere = {entry: re.sub(r" ; .+?(?= --hash)", "", entry) for entry in entries(RUN_LOCK)}
    assert [entry for entry, bare in everywhere.items() if not {entry, bare} & there] == []
