"""Every measure that a rule may name."""

from collections.abc import Mapping
from types import MappingProxyType

from gaugerod.core.checks.answer_measures import ANSWER_MEASURES
from gaugerod.core.checks.bar_measures import BAR_MEASURES
from gaugerod.core.checks.facts import Measure
from gaugerod.core.checks.hole_measures import HOLE_MEASURES
from gaugerod.core.checks.layout_measures import LAYOUT_MEASURES
from gaugerod.core.checks.material_measures import MATERIAL_MEASURES
from gaugerod.core.checks.opening_measures import OPENING_MEASURES
from gaugerod.core.checks.shower_measures import SHOWER_MEASURES
from gaugerod.core.checks.survey_measures import SURVEY_MEASURES
from gaugerod.core.checks.tile_measures import TILE_MEASURES

MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        **SURVEY_MEASURES,
        **LAYOUT_MEASURES,
        **TILE_MEASURES,
        **HOLE_MEASURES,
        **OPENING_MEASURES,
        **BAR_MEASURES,
        **SHOWER_MEASURES,
        **MATERIAL_MEASURES,
        **ANSWER_MEASURES,
    }
)
"""By the name that a rule gives; `docs/theory/checks.md` says what each one is."""
