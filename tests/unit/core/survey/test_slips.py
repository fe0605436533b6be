import pytest

from gaugerod.core.base.lengths import Unit
from gaugerod.core.survey.slips import slips_of

INCH = 25.4


def instead(reads: float, unit: Unit, kind: str) -> list[float]:
    scale = INCH if unit == "in" else 1.0
    found = [slip.instead / scale for slip in slips_of(reads * scale, unit=unit)]
    kinds = [slip.kind for slip in slips_of(reads * scale, unit=unit)]
    return sorted(round(x, 4) for x, k in zip(found, kinds, strict=True) if k == kind)


@pytest.mark.parametrize(
    ("reads", "unit", "kind", "expected"),
    [
        (60.8125, "in", "burned-inch", [59.8125]),
        (1604.0, "mm", "burned-hundred", [1504.0]),
        (48.0, "in", "one-foot", [36.0, 60.0]),
        (750.0, "mm", "one-ten", [740.0, 760.0]),
        (66.5, "in", "six-nine", [69.5, 96.5]),
        (-19.25, "in", "six-nine", [-16.25]),
        (1500.0, "mm", "six-nine", []),
        (59.625, "in", "fraction", [59.375, 59.5, 59.75]),
        (59.0625, "in", "fraction", [59.1875, 59.9375]),
        (59.5, "in", "fraction", [59.375, 59.625]),
        (59.0, "in", "fraction", []),
        (59.03, "in", "fraction", []),  # on no sixteenth: it was not read from a fraction
        (160.4, "mm", "scale", [16.04, 1604.0]),
    ],
)
def test_slips_by_hand(reads: float, unit: Unit, kind: str, expected: list[float]) -> None:
    assert instead(reads, unit, kind) == expected


def test_the_commonest_come_first() -> None:
    weights = [slip.weight for slip in slips_of(1500.0, unit="in")]
    assert weights == sorted(weights, reverse=True)
