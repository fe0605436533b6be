"""Reading a length against reading a bare decimal."""

from collections.abc import Iterator

from bench.timing import Row, versus
from gaugerod.core.base.lengths import parse_length

TEXTS = ("59 13/16", "5' 3-1/8\"", "1603.4 mm", "63.125 in", "12 strong") * 200


def rows() -> Iterator[Row]:
    """Yield the cost of a thousand lengths."""
    yield versus(
        "read 1,000 lengths",
        lambda: [parse_length(text, unit="in") for text in TEXTS],
        lambda: [float("59.8125") for _ in TEXTS],
        "float() of a decimal",
    )
