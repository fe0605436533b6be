"""What weighing gives: options that nothing else beats, and the named picks."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from gaugerod.core.base.messages import Message
from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.odds import Odds

Pick: TypeAlias = Literal["looks first", "saw least", "buy least"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One layout with what it costs. Money in [cents].

    `picks` are the names under which it is offered; `reason` says why in one sentence, and
    `gives_up` what others would do better. `odds` are those that all hard limits hold on the day.
    """

    id: str
    layout: Layout
    pieces: int
    cuts: int
    modules: int
    price: int
    looks: int
    smallest: float
    odds: Odds
    picks: tuple[Pick, ...]
    reason: Message
    gives_up: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """Every option of the short list that no other beats in all respects."""

    options: tuple[Option, ...]
    tried: int
    refused: tuple[tuple[str, int], ...]
