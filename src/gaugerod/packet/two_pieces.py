"""What a card says of a U round an opening: where to make it two pieces, or why not."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Length
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.cutting.two_pieces import two_pieces
from gaugerod.core.job.materials import System
from gaugerod.core.sheet.corners import frame_of


def better_two(piece: Piece, system: System, words: Catalogue) -> Iterator[str]:
    """Say of each U of a piece where a joint makes it two, or why there is none."""
    region = frame_of(piece).region_to_module(piece.region)
    for found in two_pieces(piece, region, system):
        if found.at is None:
            yield words.text(f"card.one-piece-{found.why}", neck=Length(found.neck))
        else:
            yield words.text(
                "card.two-pieces",
                neck=Length(found.neck),
                at=Length(found.at),
                start=words.text(f"card.{found.start}"),
            )
