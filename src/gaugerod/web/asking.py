"""Questions about a job: each knows its key, how it is shown in a form, how an answer is kept."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal, TypeAlias

from gaugerod.web.fields import NO, YES
from gaugerod.web.form import Form

Sort: TypeAlias = Literal[
    "text",  # kept as it was written: words, lengths, money, temperatures
    "date",
    "time",
    "moment",
    "number",
    "choice",
    "yes-or-no",
    "pair",  # width and height
    "words",  # several, with a space between
    "numbers",
    "years",  # a code and its year, several
    "many",  # several of what is offered
    "each",  # one for every one that is offered, such as every wall
    "order",  # all that are offered, in an order
]
Control: TypeAlias = Literal["text", "decimal", "date", "time", "moment", "choice", "check"]
_CONTROLS: Mapping[str, Control] = {
    "date": "date",
    "time": "time",
    "moment": "moment",
    "number": "decimal",
    "choice": "choice",
    "yes-or-no": "choice",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """A question: the way to its answer in a job, its sort, and what may be chosen.

    `of` names what is offered where that depends on the job, such as `walls`. With `other`, a
    length or a number may be written in place of a choice. `usual` holds where a job says nothing.
    With `hint` the catalogue says more.
    """

    path: tuple[str, ...]
    sort: Sort = "text"
    options: tuple[str, ...] = ()
    of: str = ""
    other: bool = False
    usual: tuple[str, ...] = ()
    hint: bool = False

    @property
    def key(self) -> str:
        """Its name in the form."""
        return ".".join(self.path)

    @property
    def called(self) -> str:
        """Its name in the catalogue."""
        return "-".join(self.path).replace("_", "-")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One input of a question; `label` is its own, where a question has several."""

    name: str
    control: Control
    value: str
    options: tuple[tuple[str, str], ...] = ()
    label: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A question as a form shows it: its cells, and what stood in them when it was shown."""

    key: str
    called: str
    hint: bool
    usual: bool
    cells: tuple[Cell, ...]
    was: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """What may be chosen of a job: value and text by the name of what is offered."""

    lists: Mapping[str, Sequence[tuple[str, str]]] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)

    def of(self, ask: Ask) -> tuple[tuple[str, str], ...]:
        """Return what may be chosen, each with what it is called."""
        if ask.of and ask.sort != "each":
            return tuple(self.lists[ask.of])
        options = (YES, NO) if ask.sort == "yes-or-no" else ask.options
        return tuple((one, self.words.get(one, one)) for one in options)

    def each(self, ask: Ask) -> tuple[str, ...]:
        """Return the ones that a question is asked for."""
        return tuple(value for value, _ in self.lists[ask.of])


def at(tables: Mapping[str, Any], path: Iterable[str]) -> Any:  # noqa: ANN401  (what a job holds)
    """Return what stands in tables, nothing where there is nothing."""
    found: Any = tables
    for key in path:
        found = found.get(key) if isinstance(found, Mapping) else None
    return found


def put(tables: dict[str, Any], path: Sequence[str], value: object) -> None:
    """Write a value into tables; nothing takes it out, with what is empty after it."""
    key, *rest = path
    if rest:
        old = tables.get(key)
        inner: dict[str, Any] = dict(old) if isinstance(old, Mapping) else {}
        put(inner, rest, value)
        value = inner or None
    if value is None:
        tables.pop(key, None)
    else:
        tables[key] = value


def question(
    ask: Ask, tables: Mapping[str, Any], offered: Offered, form: Form | None = None
) -> Question:
    """Return a question with what a job says, or what a form said that was refused."""
    value = at(tables, ask.path)
    stands = shown(value, ask, offered)
    names = names_of(ask, offered)
    texts = texts_of(ask, form, offered) if form else stands
    options = offered.of(ask)
    if ask.sort == "choice" and not ask.other and stands[0] not in {"", *dict(options)}:
        # Said in a file in a way that is not offered: it can stay.
        options = (*options, (stands[0], stands[0]))
    return Question(
        key=ask.key,
        called=ask.called,
        hint=ask.hint,
        usual=bool(ask.usual),
        cells=tuple(
            Cell(
                name=name,
                control=control_of(ask, number),
                value=text,
                options=options if control_of(ask, number) == "choice" else (),
                label=_label(ask, number, offered),
            )
            for number, (name, text) in enumerate(zip(names, texts, strict=True))
        ),
        was=form.text(f"was.{ask.key}") if form else joined(stands),
    )


def control_of(ask: Ask, number: int) -> Control:
    """Return what kind of input a cell of a question is."""
    if ask.sort == "many":
        return "check"
    if ask.sort == "each":
        return "choice" if ask.options else "text"
    if ask.sort == "order":
        return "choice"
    if ask.sort == "choice" and number:
        return "text"
    return _CONTROLS.get(ask.sort, "text")


def names_of(ask: Ask, offered: Offered) -> tuple[str, ...]:
    """Return the names of the inputs of a question."""
    if ask.sort == "pair":
        return f"{ask.key}.0", f"{ask.key}.1"
    if ask.sort == "many":
        return tuple(f"{ask.key}.{value}" for value, _ in offered.of(ask))
    if ask.sort == "each":
        return tuple(f"{ask.key}.{name}" for name in offered.each(ask))
    if ask.sort == "order":
        return tuple(f"{ask.key}.{number}" for number in range(len(offered.of(ask))))
    return (ask.key, f"{ask.key}.other") if ask.other else (ask.key,)


def shown(value: object, ask: Ask, offered: Offered) -> list[str]:
    """Return what a job says as the texts of a question's inputs."""
    if value is None and ask.usual:
        value = [*ask.usual] if ask.sort == "many" else ask.usual[0]
    match ask.sort:
        case "pair":
            texts = [str(one) for one in value] if isinstance(value, list) else []
            found = [*texts, "", ""][:2]
        case "many":
            listed = value if isinstance(value, list) else []
            found = [YES if option in listed else "" for option, _ in offered.of(ask)]
        case "order":
            listed = value if isinstance(value, list) else []
            count = len(offered.of(ask))
            found = [*map(str, listed), *([""] * count)][:count]
        case "each":
            table = value if isinstance(value, Mapping) else {}
            found = [_text(table.get(name)) for name in offered.each(ask)]
        case _:
            text = _text(value)
            known = not ask.other or text in {"", *dict(offered.of(ask))}
            found = [text if known else "", *(["" if known else text] if ask.other else [])]
    return found


def joined(texts: Iterable[str]) -> str:
    """Return the texts of a question's inputs as one, to see whether they were touched."""
    return "|".join(texts)


def touched(ask: Ask, form: Form, offered: Offered) -> bool:
    """Tell whether a form asks a question and was given another answer than it showed."""
    was = f"was.{ask.key}"
    return was in form.values and joined(texts_of(ask, form, offered)) != form.text(was)


def texts_of(ask: Ask, form: Form, offered: Offered) -> list[str]:
    """Return what a form says to a question, one text for each of its inputs."""
    return [form.text(name) for name in names_of(ask, offered)]


def _label(ask: Ask, number: int, offered: Offered) -> str:
    if ask.sort == "many":
        return offered.of(ask)[number][1]
    return offered.each(ask)[number] if ask.sort == "each" else ""


def _text(value: object) -> str:
    if isinstance(value, bool):
        return YES if value else NO
    if isinstance(value, list):
        return " ".join(map(str, value))
    if isinstance(value, Mapping):
        return ", ".join(f"{name} {one}" for name, one in value.items())
    return "" if value is None else str(value)
