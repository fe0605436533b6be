"""What the lines of an order say, in mm and m."""

import tomllib
from importlib.resources import files

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import METRIC, Display
from gaugerod.core.takeoff.order import OrderLine

_TEXT = files("gaugerod").joinpath("data/text/en.toml").read_text(encoding="utf-8")
_SENTENCES = {f"takeoff.{key}": said for key, said in tomllib.loads(_TEXT)["takeoff"].items()}


def said(line: OrderLine, display: Display = METRIC) -> str:
    """Say the sum of a line."""
    return Catalogue(sentences=_SENTENCES, display=display).say(line.arithmetic)
