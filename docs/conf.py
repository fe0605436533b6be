"""Settings of the documentation: pages in Markdown, and what the core says of itself."""

from pkgutil import walk_packages
from types import GenericAlias
from typing import Any

from pydantic import BaseModel
from sphinx.application import Sphinx

from gaugerod import __version__, core

project = "Gaugerod"
version = release = __version__
html_show_copyright = False
html_theme = "alabaster"
html_theme_options = {"fixed_sidebar": True, "page_width": "1100px"}

extensions = ["myst_parser", "sphinx.ext.autodoc", "numpydoc"]
myst_heading_anchors = 3
numpydoc_show_class_members = False
autodoc_member_order = "bysource"
autodoc_default_options = {"members": True}

# Types of Python and of other libraries have no page here, nor have private ones.
nitpick_ignore_regex = [
    ("py:.*", r"(annotated_types|collections|datetime|decimal|fractions|numpy|pydantic).*"),
    ("py:.*", r"(pydantic_core|shapely|types|typing|zoneinfo)\..*"),
    ("py:.*", r"(FieldInfo|NoneType)"),
    ("py:.*", r"gaugerod\..*\.[A-Z]"),  # a type variable
]


def list_modules(_: Sphinx, docname: str, source: list[str]) -> None:
    """Put every module of the core on its page, so that none is ever forgotten."""
    if docname != "reference/core":
        return
    for found in sorted(walk_packages(core.__path__, f"{core.__name__}."), key=lambda f: f.name):
        block = f"## {found.name}\n\n```{{eval-rst}}\n.. automodule:: {found.name}\n```\n\n"
        source[0] += block


def hide_fields(_: Sphinx, what: str, *about: Any) -> tuple[str, None] | None:  # noqa: ANN401 (as autodoc calls it)
    """Leave the fields of documents to their schemas: as signatures nobody can read them."""
    described = about[1]
    if what == "class" and issubclass(described, BaseModel):
        return "", None
    return None


def skip_aliases(_: Sphinx, __: str, ___: str, described: object, skip: bool, *____: Any) -> bool:  # noqa: ANN401, FBT001 (as autodoc calls it)
    """Leave out short names of generic types: Sphinx 9 takes a tuple of any length for a call."""
    return skip or isinstance(described, GenericAlias)


def setup(app: Sphinx) -> None:
    """Call them while the pages are read."""
    app.connect("source-read", list_modules)
    app.connect("autodoc-process-signature", hide_fields)
    app.connect("autodoc-skip-member", skip_aliases)
