"""What is written is read again, audited and measured by a reader of its own."""

import os
import subprocess
import sys
from collections import Counter
from io import BytesIO

import pytest
from ezdxf import recover
from ezdxf.document import Drawing as Document
from tests.fixtures_plan import keyed_plan, tiled_plan, words_in

from gaugerod.core.base.geometry import Box, Region
from gaugerod.core.base.lengths import FINE_METRIC, IMPERIAL, METRIC, Display
from gaugerod.core.sheet.drawing import Area, Circle, Dimension, Drawing, Item, Line, Text
from gaugerod.packet.walls import elevation
from gaugerod.writers.dxf import dxf

INCH, MM = 1, 4
"""As $INSUNITS counts them. Source: DXF reference, HEADER section, found."""
INCHES_IN_HALF, HALF_TURNED = '23 5/8"', 90


def read(*items: Item, display: Display = METRIC) -> Document:
    bounds = Box(left=0.0, bottom=0.0, right=600.0, top=300.0)
    return opened(Drawing(name="wall", title="Wall", bounds=bounds, items=items), display)


def opened(drawing: Drawing, display: Display) -> Document:
    document, audit = recover.read(BytesIO(dxf(drawing, display)))
    assert (audit.errors, audit.fixes) == ([], [])
    return document


def text(content: str, at: tuple[float, float] = (300.0, -30.0)) -> Text:
    return Text(layer="tag", at=at, text=content, height=20.0, anchor="middle", turn=0)


def measured(*, plumb: bool) -> Dimension:
    end = (0.0, 600.0) if plumb else (600.0, 0.0)
    label = text(INCHES_IN_HALF)
    return Dimension(layer="dimension", start=(0.0, 0.0), end=end, offset=-50.0, label=label)


@pytest.mark.parametrize(("display", "unit"), [(METRIC, MM), (IMPERIAL, INCH)])
def test_the_unit_is_the_reader_s_own(display: Display, unit: int) -> None:
    assert read(display=display).header["$INSUNITS"] == unit
    assert read(display=display).header["$MEASUREMENT"] == (unit == MM)


@pytest.mark.parametrize(("display", "size"), [(METRIC, 1.0), (IMPERIAL, 25.4)])
def test_a_millimetre_is_drawn_one_to_one(display: Display, size: float) -> None:
    ring = ((0.0, 0.0), (600.0, 0.0), (600.0, 300.0))
    document = read(
        Line(layer="datum", start=(0.0, 0.0), end=(508.0, 254.0)),
        Area(layer="cut", region=Region(rings=(ring,))),
        Circle(layer="hole", centre=(127.0, 254.0), diameter=76.2),
        display=display,
    )
    (line,) = document.modelspace().query("LINE")
    assert line.dxf.end.xyz == pytest.approx((508.0 / size, 254.0 / size, 0.0))
    (area,) = document.modelspace().query("LWPOLYLINE")
    points = [point for x, y in ring for point in (x / size, y / size)]
    assert [c for p in area.get_points("xy") for c in p] == pytest.approx(points)  # type: ignore[attr-defined]  # a query gives the base class
    assert area.closed  # type: ignore[attr-defined]  # likewise
    (circle,) = document.modelspace().query("CIRCLE")
    assert (circle.dxf.center.x, circle.dxf.radius) == pytest.approx((127 / size, 38.1 / size))


def test_each_layer_has_its_own_and_texts_have_theirs() -> None:
    document = read(Line(layer="trim", start=(0.0, 0.0), end=(1.0, 0.0)), text("B1-1"))
    assert {"TRIM", "TEXT"} <= {layer.dxf.name for layer in document.layers}
    on = {entity.dxftype(): entity.dxf.layer for entity in document.modelspace()}
    assert on == {"LINE": "TRIM", "TEXT": "TEXT"}


def test_a_hole_in_an_area_is_an_outline_of_its_own() -> None:
    outer = ((0.0, 0.0), (9.0, 0.0), (9.0, 9.0), (0.0, 9.0))
    inner = ((1.0, 1.0), (1.0, 2.0), (2.0, 2.0))
    found = read(Area(layer="piece", region=Region(rings=(outer, inner)))).modelspace()
    assert [len(area) for area in found.query("LWPOLYLINE")] == [4, 3]  # type: ignore[arg-type]  # likewise


@pytest.mark.parametrize("plumb", [False, True])
@pytest.mark.parametrize(("display", "size"), [(METRIC, 600.0), (IMPERIAL, 600 / 25.4)])
def test_a_dimension_measures_what_it_spans_and_shows_our_figure(
    display: Display, size: float, *, plumb: bool
) -> None:
    (found,) = read(measured(plumb=plumb), display=display).modelspace().query("DIMENSION")
    assert found.get_measurement() == pytest.approx(size)  # type: ignore[attr-defined]  # likewise
    assert (found.dxf.text, found.dxf.layer) == (INCHES_IN_HALF, "DIMENSION")
    assert found.dxf.angle == pytest.approx(90.0 if plumb else 0.0)
    assert found.dxf.geometry.startswith("*D")


@pytest.mark.parametrize(
    ("display", "kind", "digits"), [(METRIC, 2, 0), (FINE_METRIC, 2, 1), (IMPERIAL, 5, 4)]
)
def test_a_figure_made_anew_is_as_fine_as_ours(display: Display, kind: int, digits: int) -> None:
    """Decimals are kind 2, fractions kind 5; 4 digits of these are sixteenths."""
    style = read(display=display).dimstyles.get("SHEET")
    assert (style.dxf.dimlunit, style.dxf.dimdec) == (kind, digits)


def test_a_text_keeps_its_place_height_and_turn() -> None:
    turned = Text(layer="tag", at=(5.0, 7.0), text="1 ↑ 2", height=20.0, anchor="end", turn=90)
    (found,) = read(turned).modelspace().query("TEXT")
    assert found.get_placement()[1].xyz == (5.0, 7.0, 0.0)  # type: ignore[attr-defined]  # likewise
    assert (found.dxf.text, found.dxf.height, found.dxf.rotation) == ("1 ↑ 2", 20.0, 90.0)


@pytest.mark.parametrize(("said", "share"), [('3 ↑ 3 1/8"', 0.75), ('3 ↑ 3"', 1.0)])
def test_a_fraction_stays_plain_text_and_keeps_to_the_room_of_a_set_one(
    said: str, share: float
) -> None:
    """Written out, 15/16 is four digits and a slash wide; set, its digits are 0.69 of that."""
    label = text(said)
    row = Dimension(
        layer="dimension", start=(0.0, 0.0), end=(600.0, 0.0), offset=-50.0, label=label
    )
    document = read(label, row)
    (written,) = document.modelspace().query("TEXT")
    assert (written.dxf.text, written.dxf.width) == (said, share)
    (measured_as,) = document.modelspace().query("DIMENSION")
    (shown,) = document.blocks.get(measured_as.dxf.geometry).query("MTEXT")
    assert shown.text == said  # type: ignore[attr-defined]  # a block gives the base class
    for entity in (written, shown):
        assert document.styles.get(entity.dxf.style).dxf.width == share


@pytest.mark.parametrize("display", [METRIC, IMPERIAL])
@pytest.mark.parametrize("wall", [0, 1, 2])
@pytest.mark.parametrize("keyed", [True, False])
def test_nothing_of_an_elevation_is_lost(display: Display, wall: int, *, keyed: bool) -> None:
    plan = keyed_plan() if keyed else tiled_plan()
    drawing = elevation(plan, plan.walls.walls[wall], words_in(display))
    names = {"Line": "LINE", "Area": "LWPOLYLINE", "Circle": "CIRCLE", "Text": "TEXT"}
    drawn = Counter(
        (names.get(type(item).__name__, "DIMENSION"), item.layer.upper())
        for item in drawing.items
        for _ in (item.region.rings if isinstance(item, Area) else "1")
    )
    expected: Counter[tuple[str, str]] = Counter()
    for (kind, layer), number in drawn.items():
        expected[kind, "TEXT" if kind == "TEXT" else layer] += number
    found = opened(drawing, display).modelspace()
    assert Counter((entity.dxftype(), entity.dxf.layer) for entity in found) == expected


def test_the_bytes_hang_on_no_clock_and_no_seed() -> None:
    script = (
        "from hashlib import sha256\n"
        "from tests.fixtures_plan import MILLIMETRES, words_in\n"
        "from gaugerod.core.sheet.elevation import draw_elevation\n"
        "from gaugerod.core.sheet.sample import sample_layout, sample_pieces, sample_wall\n"
        "from gaugerod.writers.dxf import dxf\n"
        "words = words_in(MILLIMETRES)\n"
        "drawing = draw_elevation(sample_wall(), sample_layout(), sample_pieces(), words)\n"
        "print(sha256(dxf(drawing, MILLIMETRES)).hexdigest())"
    )
    made = {
        subprocess.run(
            [sys.executable, "-c", script],
            check=True,
            capture_output=True,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": os.pathsep.join(sys.path)},
        ).stdout
        for seed in ("1", "2")
    }
    assert len(made) == 1
