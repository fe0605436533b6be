"""Make the picture of the README anew from the drawing that `make demo` wrote."""

from importlib.resources import as_file, files
from pathlib import Path

import typst

HERE = Path(__file__).parent
DRAWING = HERE.parents[1] / "out" / "alcove-1962" / "elevation-B.svg"
PAGE = """
#set page(width: 180mm, height: auto, margin: 3mm, fill: white)
#image(bytes(sys.inputs.svg), format: "svg", width: 100%)
"""


def main() -> None:
    """Draw it on white, with the fonts that come along."""
    with as_file(files("gaugerod") / "data" / "paper" / "fonts") as folder:
        fonts = typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder)]
        )
        picture = typst.compile(
            PAGE.encode(),
            format="png",
            ppi=140,
            sys_inputs={"svg": DRAWING.read_text(encoding="utf-8")},
            font_paths=fonts,
            ignore_system_fonts=True,
        )
    (HERE / "back-wall.png").write_bytes(picture)


main()
