"""Runs, areas, volumes and masses as text, in the reader's units."""

from gaugerod.core.base.lengths import Display
from gaugerod.core.base.messages import Area, Mass, Measure, Run, Volume

MM_PER_INCH = 25.4
MM_PER_FOOT = 304.8
MM3_PER_GALLON = 231 * 25.4**3
"""The US gallon is 231 cubic inches."""
MM3_PER_OUNCE = MM3_PER_GALLON / 128
KG_PER_POUND = 0.45359237
MM_PER_METRE = 1e3
MM2_PER_M2 = 1e6
MM3_PER_LITRE = 1e6
MM3_PER_MILLILITRE = 1e3
_DECIMALS = {"in": 3}
_LARGE = 100
"""From here on a decimal tells nobody anything."""


def show_measure(measure: Measure, display: Display) -> str:
    """Show what is bought by the measure.

    Parameters
    ----------
    measure
        A run, an area, a volume, a mass or a thickness.
    display
        The reader's units.

    Returns
    -------
    str
        The number and its unit: whole from a hundred on, else to two decimals, in
        inches to three. A volume is in
        gallons or litres from one gallon or one litre on.

    Notes
    -----
    Source: 1 ft = 304.8 mm, 1 US gal = 231 cubic inches = 128 fl oz, 1 lb = 0.45359237 kg.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import IMPERIAL, METRIC
    >>> show_measure(Run(81077.0), IMPERIAL), show_measure(Run(81077.0), METRIC)
    ('266 ft', '81.08 m')
    >>> show_measure(Volume(298692.0), IMPERIAL), show_measure(Volume(298692.0), METRIC)
    ('10.1 fl oz', '299 mL')
    """
    amount, unit = (_imperial if display.system == "imperial" else _metric)(measure)
    decimals = 0 if amount >= _LARGE else _DECIMALS.get(unit, 2)
    text = f"{amount:.{decimals}f}"
    return f"{text.rstrip('0').rstrip('.') if decimals else text} {unit}"


def _imperial(measure: Measure) -> tuple[float, str]:
    match measure:
        case Run(mm=mm):
            return mm / MM_PER_FOOT, "ft"
        case Area(mm2=mm2):
            return mm2 / MM_PER_FOOT**2, "sq ft"
        case Volume(mm3=mm3) if mm3 < MM3_PER_GALLON:
            return mm3 / MM3_PER_OUNCE, "fl oz"
        case Volume(mm3=mm3):
            return mm3 / MM3_PER_GALLON, "gal"
        case Mass(kg=kg):
            return kg / KG_PER_POUND, "lb"
        case _:
            return measure.mm / MM_PER_INCH, "in"


def _metric(measure: Measure) -> tuple[float, str]:
    match measure:
        case Run(mm=mm):
            return mm / MM_PER_METRE, "m"
        case Area(mm2=mm2):
            return mm2 / MM2_PER_M2, "m²"
        case Volume(mm3=mm3) if mm3 < MM3_PER_LITRE:
            return mm3 / MM3_PER_MILLILITRE, "mL"
        case Volume(mm3=mm3):
            return mm3 / MM3_PER_LITRE, "L"
        case Mass(kg=kg):
            return kg, "kg"
        case _:
            return measure.mm, "mm"
