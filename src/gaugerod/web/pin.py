"""An option written into the choices of a job, so that it is the one that is planned."""

from typing import Any

from gaugerod.core.options.option import Option
from gaugerod.core.setout.layout import Layout

HELD = ("first_height", "phase")
"""Choices that hold one layout; without them it is searched for again."""
_MEETS = {"setout.first", "setout.row"}


def pinned(choices: dict[str, Any], option: Option) -> dict[str, Any]:
    """Return the choices of a job that an option follows from."""
    free = {name: value for name, value in choices.items() if name not in HELD}
    if option.picks:
        return {**free, "pick": option.picks[0]}
    free.pop("centre", None)
    return {**free, **_held(option.layout)}


def _held(layout: Layout) -> dict[str, Any]:
    (first, *_) = (reason for reason in layout.reasons if reason.key in _MEETS)
    height: Any = first.values["height"]
    held: dict[str, Any] = {
        "turn": layout.turn,
        "first_height": _written(height.mm),
        "phase": {wall.name: _written(wall.phase) for wall in layout.walls},
    }
    shift = layout.walls[0].row_shift
    if shift:
        held["step"] = "right" if shift > 0 else "left"
    return held


def _written(mm: float) -> str:
    return f"{mm:.6f} mm"
