"""Nothing in the tree speaks of one machine, of one registry, or of work left for later."""

import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

# Each is written so that it does not find itself.
UNWANTED = {
    "a path of one machine": r"/(?:work|root)/|/home/[a-z]|/tmp/brie[f]",
    "a package registry": r"pypi[.]org|pythonhosted[.]org|registry[.]npmjs|deb[.]debian[.]org",
    "work left for later": r"\b(?:T[O]DO|F[I]XME|X[X]X|NotImplemented[E]rror)\b",
    "a test that is not run": r"pytest[.]sk[i]p|mark[.]sk[i]p|xf[a]il|no[ ]cover\b",
}


def project_files() -> list[Path]:
    """Every file of the project that a person writes, committed or about to be: no pictures."""
    # The tree may belong to another user than the one who tests it.
    git = "git -c safe.directory=* ls-files --cached --others --exclude-standard -z"
    listed = subprocess.run(
        git.split(),
        cwd=ROOT,
        check=True,
        capture_output=True,
        text=True,
    )
    paths = (ROOT / name for name in listed.stdout.split("\0") if name)
    return [path for path in paths if path.is_file() and path.suffix not in {".png", ".ttf"}]


@pytest.mark.parametrize("what", UNWANTED)
def test_no_file_holds(what: str) -> None:
    found = [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:80]}"
        for path in project_files()
        for number, line in enumerate(
            path.read_text(encoding="utf-8", errors="replace").splitlines(), 1
        )
        if re.search(UNWANTED[what], line)
    ]
    assert found == []
