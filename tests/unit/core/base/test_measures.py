import pytest

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import IMPERIAL, METRIC
from gaugerod.core.base.measures import show_measure
from gaugerod.core.base.messages import Area, Mass, Measure, Run, Thickness, Volume

# By the definitions: 1 ft = 304.8 mm, 1 US gal = 231 in3 = 3.785411784 L, 1 lb = 0.45359237 kg.
SHOWN = [
    (Run(304.8), "1 ft", "0.3 m"),
    (Run(81_077.0), "266 ft", "81.08 m"),
    (Area(62 * 304.8**2), "62 sq ft", "5.76 m²"),
    (Area(9.5e6), "102 sq ft", "9.5 m²"),
    (Volume(10.1 * 29_573.53), "10.1 fl oz", "299 mL"),
    (Volume(3_785_411.784), "1 gal", "3.79 L"),
    (Volume(3_785_400.0), "128 fl oz", "3.79 L"),
    (Volume(1e6), "33.81 fl oz", "1 L"),
    (Mass(22.6796), "50 lb", "22.68 kg"),
    (Thickness(0.762), "0.03 in", "0.76 mm"),
    (Thickness(4.49), "0.177 in", "4.49 mm"),
    (Run(0.0), "0 ft", "0 m"),
]


@pytest.mark.parametrize(("measure", "imperial", "metric"), SHOWN)
def test_a_measure_is_shown_in_the_units_of_its_reader(
    measure: Measure, imperial: str, metric: str
) -> None:
    assert show_measure(measure, IMPERIAL) == imperial
    assert show_measure(measure, METRIC) == metric
    assert Catalogue(sentences={}, display=METRIC).show(measure) == metric
