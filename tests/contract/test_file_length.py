"""Small modules, small functions: ruff has no rule for either length."""

import ast
from pathlib import Path
from statistics import median

import pytest

SRC = Path(__file__).parents[2] / "src"
MODULES = sorted(SRC.rglob("*.py"))


def lines_of_code(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines from `def` to the end, without the docstring: that one may be as long as it needs."""
    first = function.body[0]
    docstring = 0
    if ast.get_docstring(function) is not None and first.end_lineno:
        docstring = first.end_lineno - first.lineno + 1
    return (function.end_lineno or 0) - function.lineno + 1 - docstring


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(SRC)))
def test_a_module_is_short_and_so_are_its_functions(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert len(text.splitlines()) <= 500
    long_ones = {
        node.name: lines_of_code(node)
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and lines_of_code(node) >= 50
    }
    assert not long_ones


def test_most_modules_are_read_in_a_minute() -> None:
    lengths = [
        len(path.read_text(encoding="utf-8").splitlines())
        for path in MODULES
        if path.name != "__init__.py"
    ]
    assert median(lengths) < 150
