"""Pages in this process: a book in a folder, a browser without scripts, and what a page holds."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from html.parser import HTMLParser
from pathlib import Path

import httpx2
from starlette.testclient import TestClient

from gaugerod.cli.clock import SystemClock
from gaugerod.cli.planning import plan_writers
from gaugerod.store.book.opening import open_book
from gaugerod.store.shelf import Library
from gaugerod.web.app import make_app
from gaugerod.web.desk import Desk

HERE = "http://127.0.0.1:8000"
MORNING = datetime(2026, 3, 5, 8, tzinfo=UTC)
_VOID = {"input", "meta", "link", "br", "img", "hr"}


@dataclass(slots=True)
class Element:
    """A part of a page: its tag, attributes, children and own text."""

    tag: str
    attributes: dict[str, str] = field(default_factory=dict)
    inside: list["Element | str"] = field(default_factory=list)

    def walk(self) -> Iterator["Element"]:
        """Every part in it, itself first."""
        yield self
        for one in self.inside:
            if isinstance(one, Element):
                yield from one.walk()

    def all(self, tag: str, **wanted: str) -> list["Element"]:
        """The parts of a tag that have these attributes; `class_` is one of its classes."""
        return [one for one in self.walk() if one.tag == tag and one.has(wanted)]

    def one(self, tag: str, **wanted: str) -> "Element":
        """The only part of a tag that has these attributes."""
        (found,) = self.all(tag, **wanted)
        return found

    def has(self, wanted: dict[str, str]) -> bool:
        classes = self.attributes.get("class", "").split()
        return all(
            value in classes if name == "class_" else self.attributes.get(name) == value
            for name, value in wanted.items()
        )

    @property
    def text(self) -> str:
        parts = (one if isinstance(one, str) else one.text for one in self.inside)
        return re.sub(r"\s+", " ", " ".join(parts)).strip()


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.root = Element("page")
        self.open = [self.root]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        made = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].inside.append(made)
        if tag not in _VOID:
            self.open.append(made)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        made = Element(tag, {name: value or "" for name, value in attrs})
        self.open[-1].inside.append(made)

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1].tag == tag, f"</{tag}> closes <{self.open[-1].tag}>"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].inside.append(data)


def read_page(html: str) -> Element:
    """The parts of a page, every one of them closed in its turn."""
    reader = _Reader()
    reader.feed(html)
    assert reader.open == [reader.root]
    return reader.root


@dataclass(slots=True)
class Browser:
    """Opens pages and sends their forms, as a browser without scripts does."""

    client: TestClient
    desk: Desk
    address: str = ""

    def open(self, address: str, *, status: int = 200) -> Element:
        return self._landed(self.client.get(address), status)

    def send(
        self,
        form: Element,
        fill: Mapping[str, str] | None = None,
        *,
        press: Element | None = None,
        status: int = 200,
    ) -> Element:
        """Fill a form in and send it; every field filled must be there."""
        values = filled(form, fill or {})
        if press is not None and "name" in press.attributes:
            values[press.attributes["name"]] = press.attributes["value"]
        return self.post(form.attributes["action"], values, status=status)

    def post(self, address: str, values: dict[str, str], *, status: int = 200) -> Element:
        answer = self.client.post(address, data=values, headers={"Origin": HERE})
        return self._landed(answer, status)

    def _landed(self, answer: httpx2.Response, status: int) -> Element:
        assert answer.status_code == status, answer.text
        self.address = answer.url.path
        return read_page(answer.text)


def filled(form: Element, fill: Mapping[str, str]) -> dict[str, str]:
    """What a browser would send of a form with some of its fields filled in."""
    values: dict[str, str] = {}
    names = set()
    for one in form.all("input"):
        kind, name = one.attributes.get("type", "text"), one.attributes.get("name", "")
        names.add(name)
        chosen = kind not in {"radio", "checkbox"} or "checked" in one.attributes
        if chosen and kind != "file":
            values[name] = one.attributes.get("value", "")
    for one in form.all("select"):
        options = one.all("option")
        chosen_ones = [o for o in options if "selected" in o.attributes] or options[:1]
        names.add(one.attributes["name"])
        if chosen_ones:
            values[one.attributes["name"]] = chosen_ones[0].attributes["value"]
    for one in form.all("textarea"):
        names.add(one.attributes["name"])
        values[one.attributes["name"]] = one.text
    assert fill.keys() <= names, fill.keys() - names
    return {**values, **fill}


def browser(folder: Path) -> Browser:
    """A browser at pages of a new book in a folder."""
    desk = Desk(
        book=open_book(folder / "book"),
        shelf=Library(),
        writers=plan_writers(SystemClock()),
        now=lambda: MORNING,
    )
    client = TestClient(make_app(desk), base_url=HERE, raise_server_exceptions=True)
    return Browser(client, desk)
