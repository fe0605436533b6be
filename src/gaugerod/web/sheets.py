"""What else a job says, sheet by sheet: questions, and lists that can be added to."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import get_args

from gaugerod.core.job.answers import Backer
from gaugerod.core.job.document import Bond, Centring, Limit, PatternBond
from gaugerod.core.job.fields import InsideFace
from gaugerod.core.job.readings import Surface
from gaugerod.web.asking import Ask

_WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A list of a job, the way to it, and what is asked of each of its entries."""

    path: tuple[str, ...]
    asks: tuple[Ask, ...]

    @property
    def name(self) -> str:
        """Its name in addresses and in the catalogue."""
        return self.path[-1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Questions that belong together, and lists; `near` is the page that leads to them."""

    name: str
    near: str
    asks: tuple[Ask, ...] = ()
    lists: tuple[Listed, ...] = ()


def _facts(*names: str) -> tuple[Ask, ...]:
    return tuple(Ask(path=("facts", name)) for name in names)


def _yes_or_no(*names: str) -> tuple[Ask, ...]:
    return tuple(Ask(path=("facts", name), sort="yes-or-no") for name in names)


def _none_or(*names: str) -> tuple[Ask, ...]:
    return tuple(
        Ask(path=("facts", name), sort="choice", options=("none",), other=True) for name in names
    )


ACCENTS = Listed(
    path=("choices", "accent"),
    asks=(
        Ask(path=("material",), sort="choice", of="materials"),
        Ask(path=("walls",), sort="many", of="walls"),
        Ask(path=("courses",), sort="numbers", hint=True),
        Ask(path=("inside",), sort="choice", of="openings"),
        Ask(path=("faces",), sort="many", options=get_args(InsideFace)),
    ),
)
OVERRIDES = Listed(
    path=("choices", "override"),
    asks=(
        Ask(path=("limit",), sort="choice", options=get_args(Limit)),
        Ask(path=("by",)),
        Ask(path=("on",), sort="date"),
        Ask(path=("why",)),
    ),
)
OFFCUTS = Listed(
    path=("offcut",),
    asks=(
        Ask(path=("name",)),
        Ask(path=("size",), sort="pair"),
        Ask(path=("keeps",), sort="many", options=("left", "right", "bottom", "top")),
        Ask(path=("lot",)),
        Ask(path=("material",), sort="choice", of="materials"),
    ),
)
PROGRESS = Listed(
    path=("calendar", "progress"),
    asks=(
        Ask(path=("task",), sort="choice", of="tasks"),
        Ask(path=("started",), sort="moment"),
        Ask(path=("finished",), sort="moment"),
        Ask(path=("delay_hours",), sort="number"),
    ),
)
CHANGES = Listed(
    path=("change",),
    asks=(
        Ask(path=("what",)),
        Ask(path=("why",)),
        Ask(path=("price",), hint=True),
        Ask(path=("days",), sort="number"),
        Ask(path=("signed",), sort="date", hint=True),
        Ask(path=("by",)),
    ),
)
_HUNG = (
    Ask(
        path=("choices", "bond"),
        sort="choice",
        options=(*get_args(Bond), "any", *get_args(PatternBond)),
        usual=("any",),
        other=True,
        hint=True,
    ),
    Ask(path=("choices", "step"), sort="choice", options=("right", "left", "any"), usual=("any",)),
    Ask(path=("choices", "wall_order"), sort="order", of="walls", hint=True),
    Ask(
        path=("choices", "corners"),
        sort="choice",
        options=("afresh", "run on", "any"),
        usual=("afresh",),
        hint=True,
    ),
    Ask(
        path=("choices", "finish"),
        sort="choice",
        options=("line", "ceiling", "any"),
        usual=("line",),
        other=True,
        hint=True,
    ),
    Ask(path=("choices", "least_finish")),
    Ask(path=("choices", "centre"), sort="each", of="walls", options=get_args(Centring)),
    Ask(
        path=("choices", "pick"),
        sort="choice",
        options=("looks first", "saw least", "buy least"),
        usual=("looks first",),
    ),
    Ask(path=("choices", "first_height"), hint=True),
    Ask(path=("choices", "phase"), sort="each", of="walls", hint=True),
    *_yes_or_no("adhesive_fits", "rectified"),
    *_facts("size_variation", "warpage", "lippage"),
)
_TAPED = (
    Ask(path=("survey", "taken"), sort="date"),
    Ask(path=("survey", "surface"), sort="choice", options=get_args(Surface), hint=True),
    Ask(
        path=("survey", "bonding"), sort="choice", options=("backer", "old tile"), usual=("backer",)
    ),
    Ask(path=("survey", "layers", "backer")),
    Ask(path=("survey", "layers", "old_tile")),
    Ask(path=("survey", "layers", "lining")),
    Ask(path=("facts", "backer"), sort="choice", options=get_args(Backer)),
    *_yes_or_no("vapour_retarder"),
    *_none_or("board_days"),
    *_facts("paint_height"),
)
_ROOM = (
    *_yes_or_no("shower_head", "accessible", "window_out"),
    *_none_or("receptacle", "hanging_light", "closet_side", "closet_front"),
    *_facts("hot_limit", "entry", "curb", "threshold"),
    Ask(path=("facts", "floor_slope"), sort="number", hint=True),
    *_facts("hose"),
    Ask(path=("facts", "ticked"), sort="many", of="ticks", hint=True),
)
_DAYS = (
    Ask(path=("calendar", "days"), sort="many", options=_WEEK, usual=_WEEK[:5]),
    Ask(path=("calendar", "holidays"), sort="words", hint=True),
    Ask(path=("calendar", "holidays_of"), hint=True),
    Ask(path=("calendar", "delivered"), sort="date"),
    Ask(path=("calendar", "spare_days"), sort="number"),
    Ask(path=("calendar", "room", "temperature"), hint=True),
    Ask(path=("calendar", "room", "humidity"), sort="number"),
)
_MONEY = (
    Ask(path=("contract", "sum")),
    Ask(path=("contract", "signed"), sort="date"),
    Ask(path=("factors",), sort="many", of="factors"),
)
_PAPER = (
    Ask(path=("name",)),
    Ask(path=("scenario",), hint=True),
    Ask(path=("display",), sort="choice", options=("imperial", "metric")),
    Ask(path=("timezone",), hint=True),
    Ask(path=("site", "editions"), sort="years", hint=True),
    Ask(path=("site", "doorway"), sort="pair"),
)
SHEETS: Mapping[str, Sheet] = {
    sheet.name: sheet
    for sheet in (
        Sheet(name="taped", near="measure", asks=_TAPED),
        Sheet(name="hung", near="set-out", asks=_HUNG, lists=(ACCENTS, OVERRIDES, OFFCUTS)),
        Sheet(name="days", near="ready", asks=_DAYS, lists=(PROGRESS,)),
        Sheet(name="money", near="price", asks=_MONEY, lists=(CHANGES,)),
        Sheet(name="room", near="ready", asks=_ROOM),
        Sheet(name="paper", near="about", asks=_PAPER),
    )
}
"""Every sheet by its name, in the order that About lists them."""
WALL_ASKS = (
    Ask(
        path=("corner",), sort="choice", options=("inside", "outside"), usual=("inside",), hint=True
    ),
    Ask(path=("finish",), sort="choice", options=("line", "ceiling"), other=True, hint=True),
    Ask(path=("old_tile_stops",), hint=True),
)
"""What is asked of a wall beside its readings and its name."""
