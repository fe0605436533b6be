"""Make the pictures of the README anew from the drawings that `make demo` wrote."""

from importlib.resources import as_file, files
from pathlib import Path

import typst

HERE = Path(__file__).parent
OUT = HERE.parents[1] / "out"
DRAWINGS = {
    "back-wall.png": (OUT / "alcove-1962" / "elevation-B.svg", "180mm"),
    "alcove.png": (OUT / "niche-tile" / "picture.svg", "120mm"),
}
PAGE = """
#set page(width: eval(sys.inputs.width), height: auto, margin: 3mm, fill: white)
#image(bytes(sys.inputs.svg), format: "svg", width: 100%)
"""


def main() -> None:
    """Draw them on white, with the fonts that come along."""
    with as_file(files("gaugerod") / "data" / "paper" / "fonts") as folder:
        fonts = typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder)]
        )
        for name, (drawing, width) in DRAWINGS.items():
            picture = typst.compile(
                PAGE.encode(),
                format="png",
                ppi=140,
                sys_inputs={"svg": drawing.read_text(encoding="utf-8"), "width": width},
                font_paths=fonts,
                ignore_system_fonts=True,
            )
            (HERE / name).write_bytes(picture)


main()
