"""The finished alcove: one picture, for paper and screen, and one model to walk round."""

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.core.sheet.picture import draw_picture
from gaugerod.core.sheet.solids import Model, model_of
from gaugerod.core.sheet.space import Alcove


def picture(plan: Plan, words: Catalogue) -> Drawing:
    """Return the finished alcove as it is seen from before it."""
    return draw_picture(_alcove(plan), words)


def model(plan: Plan) -> Model:
    """Return the finished alcove as bodies."""
    return model_of(_alcove(plan), plan.job.name)


def _alcove(plan: Plan) -> Alcove:
    return Alcove(
        walls=plan.walls,
        layout=plan.layout,
        pieces=plan.pieces,
        insides=plan.insides,
        system=plan.system,
    )
