"""The euro foreign exchange reference rates of the European Central Bank: units of a currency for one euro, each working day.

    https://www.ecb.europa.eu/stats/eurofxref/eurofxref-daily.xml   also -hist-90d.xml, -hist.xml
    https://www.ecb.europa.eu/stats/eurofxref/eurofxref.zip         a CSV of the day; -hist.zip all days

The bank's page tells of these files and how to read them
(www.ecb.europa.eu/stats/policy_and_exchange_rates/euro_reference_exchange_rates/html/index.en.html); the rates are for
information only, and may be used where the bank is named as their source (this from memory). The CSV of the day has
`Date, USD, JPY, …, ` and below it `27 November 2026, 1.0495, …, `; that of all days writes 2026-11-27, the newest first, and N/A
where there was no rate. The XML has Cube elements within each other: one with `time`, in it one for each `currency` with `rate`.
"""

import csv
import io
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from fractions import Fraction
from xml.etree import ElementTree as ET
from zipfile import BadZipFile, ZipFile

from shipcalc.files import LARGEST_FILE_BYTES
from shipcalc.money import half_up
from shipcalc.ratebook.weekly.figures import Publication, find_day, find_figure

ADDRESS = "https://www.ecb.europa.eu/stats/eurofxref/eurofxref-daily.xml"
SOURCE = "European Central Bank, euro reference rates"
EURO = "EUR"
# As many decimals as the column For one dollar keeps.
_KEPT_DECIMALS = 6

Day = tuple[date, dict[str, Decimal]]


def find_reference_rates(name: str, content: bytes) -> Publication | None:
    """Return the newest rates in a file (CSV, the same zipped, or XML), or None where it is no file of this publisher."""
    if content.startswith(b"PK"):
        content = _unzipped(content)
    days = list(_days_in_xml(content)) if content.lstrip(b"\xef\xbb\xbf \r\n\t").startswith(b"<") else []
    days = days or list(_days_in_csv(content))
    if not days:
        return None
    newest, rates = max(days, key=lambda day: day[0])
    return Publication("exchange", SOURCE, name, newest, rates)


def rate_for_one(rates: dict[str, Decimal], currency: str, base: str) -> Decimal | None:
    """Return units of a currency for one of `base`, both through the euro: their quotient exactly, rounded once, half up.

    What one euro buys of each is worth the same, so the first rate divided by the second is what one of `base` buys. None where
    the bank has no rate for one of them.
    """
    for_euro = {**rates, EURO: Decimal(1)}
    if currency not in for_euro or base not in for_euro:
        return None
    exact = Fraction(for_euro[currency]) / Fraction(for_euro[base])
    return Decimal(half_up(exact.numerator * 10**_KEPT_DECIMALS, exact.denominator)).scaleb(-_KEPT_DECIMALS)


def _days_in_csv(content: bytes) -> Iterator[Day]:
    rows = csv.reader(io.StringIO(content.decode("utf-8-sig", errors="replace")), skipinitialspace=True)
    try:
        header = [cell.strip() for cell in next(rows, [])]
        if header[:1] != ["Date"] or "USD" not in header:
            return
        for row in rows:
            day = find_day(row[0]) if row else None
            if day is not None:
                read = ((code, find_figure(cell)) for code, cell in zip(header[1:], row[1:], strict=False) if code)
                yield day, {code: rate for code, rate in read if rate is not None}
    except csv.Error:
        return


def _days_in_xml(content: bytes) -> Iterator[Day]:
    if b"<!ENTITY" in content:  # the bank's files have none, and what they unfold to may be endless
        return
    try:
        root = ET.fromstring(content)  # noqa: S314 - without entities there is nothing to unfold
    except ET.ParseError:
        return
    for cube in root.findall(".//{*}Cube"):
        day = find_day(cube.get("time"))
        if day is not None:
            read = ((one.get("currency", ""), find_figure(one.get("rate"))) for one in cube)
            yield day, {code: rate for code, rate in read if code and rate is not None}


def _unzipped(content: bytes) -> bytes:
    """Return the CSV in a zip file, empty where there is none of a size that it may have."""
    try:
        with ZipFile(io.BytesIO(content)) as parts:
            inside = [one for one in parts.infolist() if one.filename.lower().endswith(".csv")]
            if len(inside) == 1 and inside[0].file_size <= LARGEST_FILE_BYTES:
                return parts.read(inside[0])
    except (BadZipFile, OSError, RuntimeError, NotImplementedError):
        pass
    return b""
