"""What papers and the screen say where a job has several products."""

from collections.abc import Iterator, Mapping

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Accent
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.accents import Signs, signs_of


def signs_in(plan: Plan) -> Signs:
    """Return the signs of the products of a plan; none where there is one only."""
    return signs_of(plan.products, [wall.name for wall in plan.walls.walls])


def least_of(plan: Plan) -> Mapping[str, float]:
    """Return for each product the least that may be cut of it. [mm]."""
    return {system.id: system.cutting.least for system in plan.products.systems}


def letters_told(plan: Plan, words: Catalogue) -> Iterator[str]:
    """Say which letter is of which product, where there are several."""
    signs = signs_in(plan)
    if signs:
        listed = "; ".join(
            words.text("card.of-product", letter=sign.letter, name=sign.name)
            for sign in signs.values()
            if sign.letter
        )
        yield words.text("card.letters", main=plan.system.name, listed=listed)


def besides(plan: Plan, words: Catalogue) -> Iterator[str]:
    """Say of every row of the table of other products what stands where, with its letter."""
    signs = signs_in(plan)
    for one in plan.products.accented:
        sign = signs.get(one.system.id)
        key = "paper.besides" if sign and sign.letter else "paper.besides-main"
        letter = sign.letter if sign else ""
        yield words.text(key, letter=letter, name=one.system.name, where=where(one.where))


def where(accent: Accent) -> Message:
    """Say where another product stands."""
    values = {
        "walls": ", ".join(accent.walls),
        "courses": ", ".join(map(str, accent.courses)),
        "opening": " ".join((*accent.walls, accent.inside or "")),
        "faces": ", ".join(accent.faces),
    }
    if accent.inside:
        kind = "faces" if accent.faces else "inside"
    elif accent.walls:
        kind = "courses-on" if accent.courses else "walls"
    else:
        kind = "courses"
    return Message(f"paper.besides-{kind}", **values)


def modules_said(plan: Plan) -> Iterator[Message]:
    """Say how many modules are bought, product by product where there are several."""
    for one in plan.order.products:
        said = Message("paper.modules", modules=one.modules, spares=one.spares, boxes=one.boxes)
        yield of_product(plan, one.product, said)


def of_product(plan: Plan, product: str, said: Message) -> Message:
    """Put the name of a product before what is said of it, where there are several."""
    signs = signs_in(plan)
    if not signs:
        return said
    return Message("paper.of-product", name=signs[product].name, said=said)
