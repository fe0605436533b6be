"""How drawings and papers become files: what the use cases that draw are given."""

from collections.abc import Callable
from dataclasses import dataclass

from gaugerod.core.sheet.drawing import Drawing
from gaugerod.packet.paper import Paper


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetWriters:
    """How drawings and papers become text or bytes."""

    drawing: Callable[[Drawing], str]
    paper: Callable[[Paper], bytes]
