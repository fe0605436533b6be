"""An option written into the choices of a job, so that it is the one that is planned."""

from typing import Any

from gaugerod.core.job.document import Choices
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


def held_at(choices: dict[str, Any], held: Choices) -> dict[str, Any]:
    """Return the choices of a job with one place held; what it left open is settled too."""
    first = held.first_height
    assert first is not None  # noqa: S101  (held choices have one)
    settled = {name: getattr(held, name) for name in ("turn", "bond", "step", "finish", "corners")}
    return {
        **{name: value for name, value in choices.items() if name != "centre"},
        **{name: value for name, value in settled.items() if choices.get(name, "any") == "any"},
        "first_height": _written(first),
        "phase": {name: _written(phase) for name, phase in held.phase.items()},
    }


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
