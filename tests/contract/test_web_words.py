"""Every sentence of the pages is used by a page, and every page finds its sentences."""

import re
import tomllib
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "src" / "gaugerod"
TEMPLATES = sorted((PACKAGE / "web" / "templates").glob("*.html"))
CALL = re.compile(r"""\bt\(["']([a-z0-9.-]+)["'](\s*~)?""")
LITERAL = re.compile(r'"web\.([a-z0-9.-]+)')


def known() -> set[str]:
    text = (PACKAGE / "data" / "text" / "en.toml").read_text(encoding="utf-8")
    tables = tomllib.loads(text)["web"]
    return {f"{table}.{key}" for table, keys in tables.items() for key in keys}


def named() -> tuple[set[str], set[str]]:
    """Keys and beginnings of keys that the pages name."""
    found = [
        (match[1], bool(match[2]))
        for template in TEMPLATES
        for match in CALL.finditer(template.read_text(encoding="utf-8"))
    ]
    code = [path.read_text(encoding="utf-8") for path in sorted(PACKAGE.rglob("*.py"))]
    literal = [key for text in code for key in LITERAL.findall(text)]
    whole = {key for key, head in found if not head} | {k for k in literal if k in known()}
    heads = {key for key, head in found if head} | {k for k in literal if k not in known()}
    return whole, heads - {""}


def test_a_page_finds_its_sentences() -> None:
    whole, heads = named()
    assert whole - known() == set()
    assert {head for head in heads if not any(key.startswith(head) for key in known())} == set()


def test_every_sentence_is_on_a_page() -> None:
    whole, heads = named()
    idle = known() - whole
    assert sorted(key for key in idle if not key.startswith(tuple(heads))) == []


def test_every_template_is_shown() -> None:
    code = "".join(p.read_text(encoding="utf-8") for p in (PACKAGE / "web").rglob("*.py"))
    extended = "".join(path.read_text(encoding="utf-8") for path in TEMPLATES)
    idle = [
        path.name
        for path in TEMPLATES
        if f'"{path.stem}"' not in code and f'"{path.name}"' not in extended
    ]
    assert idle == []
