"""A public function of the core says its units, shows an example and names its source."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

CORE = Path(__file__).parents[2] / "src" / "gaugerod" / "core"

# What the core reckons in, and what follows from it: [mm], [mm2], [minutes/mm2], [1].
ONE = "(?:1|mm[234]?|rad2?|degrees|cents|minutes|hours|days|celsius|percent)"
UNIT = re.compile(rf"\[{ONE}(?:/{ONE})?\]")
NUMERIC = re.compile(r"\b(?:float|NDArray|ndarray)\b")
HEADING = re.compile(r"^(\w[\w ]*)\n-{3,}$", re.MULTILINE)
ENTRY = re.compile(r"^\*{0,2}(\w+(?:, \w+)*)[^\n]*((?:\n[ ].*|\n)*)", re.MULTILINE)

Functions = Iterator[tuple[str, ast.FunctionDef, bool]]


def public_functions(body: list[ast.stmt], prefix: str, *, method: bool = False) -> Functions:
    for node in body:
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            yield from public_functions(node.body, f"{prefix}.{node.name}", method=True)
        elif isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield f"{prefix}.{node.name}", node, method


FOUND = [
    found
    for path in sorted(CORE.rglob("*.py"))
    for found in public_functions(
        ast.parse(path.read_text(encoding="utf-8")).body,
        ".".join(path.relative_to(CORE).with_suffix("").parts),
    )
]


def sections(function: ast.FunctionDef) -> dict[str, str]:
    """The docstring's sections by heading; the opening words under an empty one."""
    opening, *rest = HEADING.split(ast.get_docstring(function) or "")
    return {"": opening} | dict(zip(rest[::2], rest[1::2], strict=True))


def parameters(function: ast.FunctionDef) -> list[ast.arg]:
    given = function.args
    return [a for a in (*given.posonlyargs, *given.args, *given.kwonlyargs) if a.annotation]


def lacks(function: ast.FunctionDef) -> Iterator[str]:
    found = sections(function)
    returned = ast.unparse(function.returns) if function.returns else "None"
    if parameters(function) and "Parameters" not in found:
        yield "Parameters"
    if returned not in {"None", "Never", "NoReturn"} and not found.keys() & {"Returns", "Yields"}:
        yield "Returns"
    if "Examples" not in found:
        yield "Examples"
    if "Source" not in (ast.get_docstring(function) or ""):
        yield "Source"


@pytest.mark.parametrize(
    "function", [f for _, f, method in FOUND if not method], ids=[n for n, _, m in FOUND if not m]
)
def test_a_function_states_what_a_reader_needs(function: ast.FunctionDef) -> None:
    assert list(lacks(function)) == []


@pytest.mark.parametrize("function", [f for _, f, _ in FOUND], ids=[n for n, _, _ in FOUND])
def test_a_number_has_its_unit(function: ast.FunctionDef) -> None:
    numeric = {
        arg.arg
        for arg in parameters(function)
        if arg.annotation and NUMERIC.search(ast.unparse(arg.annotation))
    }
    with_unit = {
        name
        for names, text in ENTRY.findall(sections(function).get("Parameters", ""))
        for name in names.split(", ")
        if UNIT.search(text)
    }
    assert numeric - with_unit == set()
