"""Papers as data, block by block: what stands beside or within others told one after the other."""

from collections.abc import Iterable, Iterator

from gaugerod.packet.paper import Beside, Block, Columns, Table


def every(blocks: Iterable[Block]) -> Iterator[Block]:
    """Every block, those within others in their turn."""
    for block in blocks:
        match block:
            case Beside():
                for cell in block.cells:
                    yield from every(cell)
            case Columns():
                yield from every(block.blocks)
            case _:
                yield block


def tables_of(blocks: Iterable[Block]) -> list[Table]:
    """Every table."""
    return [block for block in every(blocks) if isinstance(block, Table)]
