"""The weekly retail price of on-highway diesel, as the US Energy Information Administration publishes it (public domain).

    https://www.eia.gov/petroleum/gasdiesel/xls/psw18vwall.xls

The spreadsheet has a sheet *Contents* and sheets *Data 1*, *Data 2* …: in the first row a link and a title, in the second
`Sourcekey` and the key of each series, in the third `Date` and what each series is called, below a row for each Monday, oldest
first. The keys are EMD_EPD2D_PTE_…_DPG for No 2 diesel and EMD_EPD2DXL0_PTE_…_DPG for that of ultra low sulfur, with NUS for
the whole country, R10 to R50 for the five PADD regions, R1X to R1Z for the parts of the first, SCA for California, R5XCA for the
West Coast without it. Saved as CSV it looks the same, with days as `Nov 23, 2026`; cuttings often have only the row of names.

The layout is told from programs that read the file, and the keys from the office's own names of its series (those of XL0 and
R5XCA from memory); the file itself was not at hand when this was written.
"""

import re
from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal
from pathlib import PurePath

from shipcalc.ratebook.weekly.figures import WHOLE_COUNTRY, Publication, find_day, find_figure
from shipcalc.sheets.reading import CellValue, Sheet, workbook_of

ADDRESS = "https://www.eia.gov/petroleum/gasdiesel/xls/psw18vwall.xls"
SOURCE = "US Energy Information Administration, retail on-highway diesel"
ENDINGS = (".xls", ".xlsx", ".csv")

# Area of a series' key → the region's name, as the office writes it.
REGIONS = {
    "NUS": WHOLE_COUNTRY,
    "R10": "East Coast",
    "R1X": "New England",
    "R1Y": "Central Atlantic",
    "R1Z": "Lower Atlantic",
    "R20": "Midwest",
    "R30": "Gulf Coast",
    "R40": "Rocky Mountain",
    "R50": "West Coast",
    "R5XCA": "West Coast except California",
    "SCA": "California",
}
# How else people call them: by the numbers of the Petroleum Administration for Defense Districts.
ALSO_CALLED = {
    "u.s.": WHOLE_COUNTRY,
    "us": WHOLE_COUNTRY,
    "united states": WHOLE_COUNTRY,
    "padd 1": "East Coast",
    "padd 1a": "New England",
    "padd 1b": "Central Atlantic",
    "padd 1c": "Lower Atlantic",
    "padd 2": "Midwest",
    "padd 3": "Gulf Coast",
    "padd 4": "Rocky Mountain",
    "padd 5": "West Coast",
    "west coast less california": "West Coast except California",
    "rocky mountains": "Rocky Mountain",
}
# No 2 diesel of all kinds first: since all of it is of ultra low sulfur, both have the same prices.
_KEY = re.compile(r"EMD_EPD2D(?:XL0)?_PTE_(?P<area>[A-Z0-9]+)_DPG", re.IGNORECASE)
_NAME = re.compile(r"(?:Weekly )?(?P<region>.+?) No 2 Diesel.* Retail Prices\b.*", re.IGNORECASE)
_PADD = re.compile(r"\s*\(PADD [0-9A-Z]+\)", re.IGNORECASE)
_DEEPEST_HEADER = 10

Series = dict[date, Decimal]


def find_diesel_prices(name: str, content: bytes) -> Publication | None:
    """Return the newest prices in a file, or None where it is no file of this publisher."""
    if PurePath(name).suffix.lower() not in ENDINGS:
        return None
    by_region: dict[str, Series] = {}
    for sheet in workbook_of(name, content).sheets:
        for region, series in _series_in(sheet):
            by_region.setdefault(region, series)
    if not any(by_region.values()):
        return None
    newest = max(day for series in by_region.values() for day in series)
    figures = {region: series[newest] for region, series in by_region.items() if newest in series}
    return Publication("diesel", SOURCE, name, newest, figures)


def find_region(text: str) -> str | None:
    """Return the region that somebody has named in one of its names, `""` for the whole country; None for no region."""
    bare = " ".join(_PADD.sub("", text).split()).casefold()
    known = {name.casefold(): name for name in REGIONS.values()} | ALSO_CALLED
    return known.get(bare)


def _series_in(sheet: Sheet) -> Iterator[tuple[str, Series]]:
    """Yield each region of a sheet with its prices by day; where a region has two series, that of all No 2 diesel first."""
    header, regions = _header_of(sheet)
    for column, region in regions:
        series: Series = {}
        for row in sheet.rows[header + 1 :]:
            day, price = find_day(_at(row, 0)), find_figure(_at(row, column))
            if day is not None and price is not None:
                series[day] = price
        yield region, series


def _header_of(sheet: Sheet) -> tuple[int, list[tuple[int, str]]]:
    """Return the row, counted from 0, below which prices stand, and (column, region) of each series."""
    for number, row in enumerate(sheet.rows[:_DEEPEST_HEADER]):
        first = str(_at(row, 0) or "").strip().casefold()
        if first == "sourcekey":
            keyed = [(place, _KEY.fullmatch(str(cell or "").strip())) for place, cell in enumerate(row)]
            keyed.sort(key=lambda found: "XL0" in found[1][0].upper() if found[1] else False)
            areas = [(place, REGIONS.get(found["area"].upper())) for place, found in keyed if found]
            return number, [(place, region) for place, region in areas if region is not None]
        if first == "date":
            named = [(place, _region_of_name(str(cell or ""))) for place, cell in enumerate(row)]
            return number, [(place, region) for place, region in named if region is not None]
    return 0, []


def _region_of_name(title: str) -> str | None:
    found = _NAME.fullmatch(" ".join(title.split()))
    return find_region(found["region"]) if found else None


def _at(row: Sequence[CellValue], column: int) -> CellValue:
    return row[column] if column < len(row) else None
