"""How near road and sea miles come to published ones: python -m shipcalc.places.making.accuracy [--write]

Prints the tables of `ACCURACY.md`, which stands beside this module; `--write` writes them there. Needs the published mileages
of the tests, so it runs where the source is.
"""

import sys
from collections.abc import Sequence
from pathlib import Path

from shipcalc.places.making import lanes_accuracy, sea_accuracy

FILE = Path(__file__).parents[1] / "ACCURACY.md"
PUBLISHED = Path(__file__).parents[3] / "tests" / "published" / "data"
TABLE_OF_1949, ROADS_OF_2015 = PUBLISHED / "knuth_miles.txt.gz", PUBLISHED / "roads_of_2015.tsv"

ABOUT_ROADS = """\
# How near the miles come to published ones

Made by `python -m shipcalc.places.making.accuracy --write`; a test holds this text to what the code makes. Errors are in per
cent of the published miles; the bias is the median of the signed errors.

## Road

*Interstates of the scale*: nine Interstates from end to end (FHWA, *Route Log and Finder List*, table 1); the one scale of the
lane factors is their median, so their bias says nothing. *Other Interstates*: 39 more, to which nothing was fitted; a few are not
the shortest road between their ends (`data/lanes/ORIGIN.md`). *1949*: the highway distances between 128 cities (D. E.
Knuth, *The Stanford GraphBase*, 1993, miles.dat). Most roads were longer before the Interstates were built, so computed miles
fall short of that table; *scaled* compares after one common scale, the median. Two things were chosen with that table in hand:
how many bends the graph of highways has lost, and some of the roads in `data/lanes/mended_joins.csv` that were found missing.
*2015*: driving lengths that a directions service gave for the quickest way (`tests/published/data/ORIGIN.md`), places found by
name; nothing was fitted to them. *cities* are pairs of 25 large cities, *towns* hold small and far places of the West, where the
quickest way is now and then not the shortest.

*constant*: straight line × 1.20 (Ballou, Rahardja & Sakai 2002). *lane*: straight line × the lane's own factor.
"""

ABOUT_SEA = """
## Sea

NGA Pub. 151, *Distances Between Ports* (`data/sea/published.tsv`). No factor is fitted to it. That ships between the United
States and Europe pass the tail of the Grand Banks was chosen with the book in hand; the lanes that led to it are *guided*,
all others *held out*.
"""


def document(table_of_1949: Path = TABLE_OF_1949, roads_of_2015: Path = ROADS_OF_2015) -> str:
    """Return the text of `ACCURACY.md`."""
    roads = [
        (row.method, row.lanes, str(row.count), *_figures(row.mape, row.median, row.p95, row.worst, row.bias))
        for row in lanes_accuracy.accuracy_table(table_of_1949, roads_of_2015)
    ]
    sea = [
        ("network", row.label, str(row.count), *_figures(row.mean, row.median, row.p95, row.worst, row.bias))
        for row in sea_accuracy.accuracy_table()
    ]
    return "\n".join([ABOUT_ROADS, *_table(roads), ABOUT_SEA, *_table(sea), ""])


def _figures(*figures: float) -> tuple[str, ...]:
    """Return errors to a hundredth of a per cent; one that comes to nothing has no sign."""
    return tuple(f"{round(figure, 2) + 0.0:.2f}" for figure in figures)


def _table(rows: Sequence[tuple[str, ...]]) -> list[str]:
    """Return the lines of a table in Markdown."""
    header = ("method", "published lanes", "n", "mean", "median", "p95", "max", "bias")
    rule = ("---", "---", *("---:" for _ in header[2:]))
    return ["| " + " | ".join(row) + " |" for row in (header, rule, *rows)]


if __name__ == "__main__":
    text = document()
    if "--write" in sys.argv[1:]:
        FILE.write_text(text, encoding="utf-8")
    sys.stdout.write(text)
