"""Every message has its sentence, every sentence its use, every place its value."""

import ast
import re
import string
import tomllib
from collections.abc import Iterator
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "src" / "gaugerod"
CATALOGUE = PACKAGE / "data" / "text" / "en.toml"
KEY = re.compile(r"[a-z][a-z0-9-]*(\.[a-z0-9-]+)+")


def leaves(table: object, path: str = "") -> Iterator[tuple[str, object]]:
    """Every value of a document of tables, with its dotted path."""
    if isinstance(table, dict | list):
        named = table.items() if isinstance(table, dict) else enumerate(table)
        for name, value in named:
            yield from leaves(value, f"{path}.{name}" if path else str(name))
    else:
        yield path, table


def load(path: Path) -> dict[str, object]:
    return dict(leaves(tomllib.loads(path.read_text(encoding="utf-8"))))


SENTENCES = load(CATALOGUE)
NODES = [
    (path.relative_to(PACKAGE), node)
    for path in sorted(PACKAGE.rglob("*.py"))
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
]
LITERALS = {
    node.value: f"{path}:{node.lineno}"
    for path, node in NODES
    if isinstance(node, ast.Constant) and isinstance(node.value, str)
}
# f"survey.take-{level}" may be any key that begins so.
HEADS = tuple(
    node.values[0].value
    for _, node in NODES
    if isinstance(node, ast.JoinedStr)
    and isinstance(node.values[0], ast.Constant)
    and isinstance(node.values[0].value, str)
    and KEY.match(node.values[0].value + "x")
)
MESSAGES = [
    (f"{path}:{node.lineno}", node.args[0].value, {word.arg for word in node.keywords})
    for path, node in NODES
    if isinstance(node, ast.Call)
    and isinstance(node.func, ast.Name)
    and node.func.id == "Message"
    and isinstance(node.args[0], ast.Constant)
]
DATA = {
    value
    for path in (PACKAGE / "data").rglob("*.toml")
    if path != CATALOGUE
    for value in load(path).values()
}


def places(sentence: object) -> set[str]:
    """The names in braces."""
    names = (name for _, name, _, _ in string.Formatter().parse(str(sentence)) if name)
    return {re.split(r"[.\[]", name)[0] for name in names}


def test_the_catalogue_holds_sentences_and_nothing_else() -> None:
    assert [key for key, value in SENTENCES.items() if not isinstance(value, str)] == []


def test_every_message_has_its_sentence() -> None:
    assert [(where, key) for where, key, _ in MESSAGES if key not in SENTENCES] == []


def test_every_word_that_looks_like_a_key_is_one() -> None:
    tables = {key.split(".")[0] for key in SENTENCES}
    whole = (text for text in LITERALS if KEY.fullmatch(text) and not text.endswith("-"))
    keys = {text for text in whole if text.split(".")[0] in tables}
    assert {LITERALS[key]: key for key in sorted(keys - SENTENCES.keys())} == {}
    heads = {head for head in HEADS if head.split(".")[0] in tables}
    assert {h for h in heads if not any(key.startswith(h) for key in SENTENCES)} == set()


def test_every_sentence_has_its_use() -> None:
    idle = SENTENCES.keys() - LITERALS.keys() - DATA
    assert sorted(key for key in idle if not key.startswith(HEADS)) == []


def test_every_place_has_its_value() -> None:
    empty = {
        where: missing
        for where, key, given in MESSAGES
        if None not in given  # with **values the names can't be seen here
        and (missing := places(SENTENCES.get(str(key), "")) - given)
    }
    assert empty == {}
