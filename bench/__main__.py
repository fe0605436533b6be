"""`python -m bench`: every ratio, as one table; with `--phones` the full one of the pages."""

import sys
from collections.abc import Iterator

from bench import adjustment, cutting, lengths, papers, phones, set_out
from bench.timing import Row

PARTS = (lengths, adjustment, set_out, cutting, papers, phones)


def rows() -> Iterator[Row]:
    """Run every bench."""
    for part in PARTS:
        yield from part.rows()


def main() -> None:
    """Print the table."""
    if sys.argv[1:] == ["--phones"]:
        phones.main()
        return
    write = sys.stdout.write
    write(f"{'what':<44} {'ours':>12} {'against':>12}  {'ratio':>8}  against what\n")
    for row in rows():
        write(f"{row.what:<44} {row.ours:>12} {row.theirs:>12}  {row.ratio:>8.2f}  {row.against}\n")


if __name__ == "__main__":
    main()
