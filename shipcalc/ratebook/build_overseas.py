"""Writes the invented `overseas.xlsx` that comes with the program: python -m shipcalc.ratebook.build_overseas FOLDER."""

import sys
from datetime import date
from pathlib import Path

from shipcalc.ratebook.build_trucking import CHECKED_ON
from shipcalc.ratebook.columns import Row
from shipcalc.ratebook.starter import write_workbook
from shipcalc.ratebook.tables import OVERSEAS

ABOUT = """\
The ports are real places; everything else is invented: lines, services and prices are made up to show how the program works.
Replace them by your own before you quote anybody.""".splitlines()


def invented_rows() -> dict[str, tuple[Row, ...]]:
    """Return the rows of every sheet of the invented workbook, by the sheet's name."""
    return {}


def main(folder: Path) -> None:
    """Write `overseas.xlsx` into a folder."""
    write_workbook(folder / OVERSEAS, invented_rows(), about=ABOUT, made=date.fromisoformat(CHECKED_ON))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
