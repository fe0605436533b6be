"""Make the pictures of README and docs anew from what `make demo` wrote."""

import subprocess
from importlib.resources import as_file, files
from pathlib import Path

import typst
from pypdf import PdfReader

HERE = Path(__file__).parent
OUT = HERE.parents[1] / "out"
DRAWINGS = {
    "back-wall.png": (OUT / "alcove-1962" / "elevation-B.svg", "180mm"),
    "alcove.png": (OUT / "niche-tile" / "picture.svg", "120mm"),
}
PAGES = {
    "cards.png": (OUT / "alcove-1962" / "packet.pdf", ("L5-2", "FACE UP · ARROW UP")),
    "template.png": (OUT / "alcove-1962" / "templates.pdf", ("FACE UP",)),
    "proposal.png": (OUT / "niche-tile" / "customer.pdf", ("Proposal",)),
}
"""Pages, each the first with such words."""
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
    for name, (paper, words) in PAGES.items():
        texts = [page.extract_text() for page in PdfReader(paper).pages]
        number = str(next(n for n, text in enumerate(texts, 1) if all(w in text for w in words)))
        where = ["-f", number, "-l", number, str(paper), str((HERE / name).with_suffix(""))]
        subprocess.run(["pdftoppm", "-png", "-r", "80", "-singlefile", *where], check=True)


main()
