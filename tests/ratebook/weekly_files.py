"""Files of weekly figures in the shapes in which their publishers bring them out.

The shapes are described in `shipcalc/ratebook/weekly/energy_office.py` and `central_bank.py`, with where they were learnt. Figures
of November 2026 are invented; the others say where they are from.
"""

import io
import zipfile
from datetime import date
from pathlib import Path

import openpyxl
import xlwt

DIESEL_TITLE = "Weekly {}No 2 Diesel Retail Prices  (Dollars per Gallon)"
# Key and name of each series, in the order of the sheet.
DIESEL_SERIES = [
    ("EMD_EPD2D_PTE_NUS_DPG", "U.S. "),
    ("EMD_EPD2D_PTE_R10_DPG", "East Coast "),
    ("EMD_EPD2D_PTE_R1X_DPG", "New England (PADD 1A) "),
    ("EMD_EPD2D_PTE_R20_DPG", "Midwest "),
    ("EMD_EPD2D_PTE_R50_DPG", "West Coast "),
    ("EMD_EPD2D_PTE_SCA_DPG", "California "),
    ("EMD_EPD2D_PTE_R5XCA_DPG", "West Coast (PADD 5) Except California "),
]
# The first week of the series and the largest step in it are from memory; the last two weeks are invented.
DIESEL_ROWS = [
    (date(1994, 3, 21), (1.106, None, None, None, None, None, None)),
    (date(2022, 2, 28), (4.104, None, None, None, None, None, None)),
    (date(2022, 3, 7), (4.849, None, None, None, None, None, None)),
    (date(2026, 11, 16), (3.842, 3.871, 4.02, 3.75, 4.41, 5.02, 3.95)),
    (date(2026, 11, 23), (3.871, 3.902, 4.035, 3.774, 4.438, 5.061, 3.968)),
]
NEWEST_DIESEL = {
    "": "3.871",
    "East Coast": "3.902",
    "New England": "4.035",
    "Midwest": "3.774",
    "West Coast": "4.438",
    "California": "5.061",
    "West Coast except California": "3.968",
}

# As published for 3 June 2021: the bank's CSV of that day (eurofxref.csv), units for one euro.
JUNE_2021 = {"USD": "1.2187", "JPY": "133.81", "CZK": "25.448", "GBP": "0.85955", "HUF": "345.82", "CHF": "1.0961"}
JUNE_2021 |= {"ISK": "146.30", "NOK": "10.1501", "TRY": "10.5650", "AUD": "1.5792", "CAD": "1.4710", "KRW": "1357.75"}
# Invented, near the rates of the shipped book.
NOVEMBER_2026 = {"USD": "1.1540", "JPY": "175.10", "GBP": "0.8750", "CHF": "0.9370", "CAD": "1.5970", "SEK": "11.0010"}


def diesel_rows(*, keyed: bool = True, rows=DIESEL_ROWS) -> list[list[object]]:
    titles = [DIESEL_TITLE.format(name) for _, name in DIESEL_SERIES]
    head: list[list[object]] = [["Date", *titles]]
    if keyed:
        head = [["Back to Contents", "Data 1: Weekly Retail On-Highway Diesel Prices"], ["Sourcekey"], *head]
        head[1] += [key for key, _ in DIESEL_SERIES]
    return [*head, *([day, *prices] for day, prices in rows)]


def write_diesel_xls(path: Path, rows=DIESEL_ROWS) -> Path:
    """As published: a sheet of contents first, days as serials with a format, blanks before a series begins."""
    book = xlwt.Workbook()
    book.add_sheet("Contents").write(0, 0, "Workbook Contents")
    sheet = book.add_sheet("Data 1")
    for number, row in enumerate(diesel_rows(rows=rows)):
        for column, cell in enumerate(row):
            if cell is not None:
                styled = (xlwt.easyxf(num_format_str="MMM DD, YYYY"),) if isinstance(cell, date) else ()
                sheet.write(number, column, cell, *styled)
    book.save(str(path))
    return path


def write_diesel_xlsx(path: Path, rows=DIESEL_ROWS) -> Path:
    book = openpyxl.Workbook()
    book.active.title = "Contents"
    sheet = book.create_sheet("Data 1")
    for row in diesel_rows(rows=rows):
        sheet.append(row)
    book.save(path)
    return path


def write_diesel_csv(path: Path, *, keyed: bool = True, divider: str = ",", rows=DIESEL_ROWS) -> Path:
    """As a spreadsheet saves it; without `keyed` as people cut it, with the row of names alone."""
    lines = []
    for row in diesel_rows(keyed=keyed, rows=rows):
        cells = [f'"{cell:%b %d, %Y}"' if isinstance(cell, date) else "" if cell is None else str(cell) for cell in row]
        lines.append(divider.join(cells))
    path.write_text("\n".join(lines) + "\n")
    return path


def write_rates_csv(path: Path, rates: dict[str, str], day: date) -> Path:
    """The day's file: `27 November 2026`, and a blank cell at the end of each line."""
    named = f"{day.day} {day:%B %Y}"
    path.write_text("".join(", ".join(row) + ", \n" for row in (["Date", *rates], [named, *rates.values()])))
    return path


def write_history_csv(path: Path, days: list[tuple[date, dict[str, str]]]) -> Path:
    """All days, the newest first, N/A for what had no rate, a comma at the end of each line."""
    codes = list(dict.fromkeys(code for _, rates in days for code in rates))
    rows = [["Date", *codes], *([day.isoformat(), *(rates.get(code, "N/A") for code in codes)] for day, rates in days)]
    path.write_text("".join(",".join(row) + ",\n" for row in rows))
    return path


def write_zipped(path: Path, csv: Path) -> Path:
    with zipfile.ZipFile(path, "w") as parts:
        parts.write(csv, csv.name)
    return path


def xml_of(days: list[tuple[date, dict[str, str]]]) -> str:
    text = io.StringIO()
    text.write(
        '<?xml version="1.0" encoding="UTF-8"?>\n<gesmes:Envelope xmlns:gesmes="http://www.gesmes.org/xml/2002-08-01"'
    )
    text.write(
        ' xmlns="http://www.ecb.int/vocabulary/2002-08-01/eurofxref">\n\t<gesmes:subject>Reference rates</gesmes:subject>\n'
    )
    text.write(
        "\t<gesmes:Sender>\n\t\t<gesmes:name>European Central Bank</gesmes:name>\n\t</gesmes:Sender>\n\t<Cube>\n"
    )
    for day, rates in days:
        text.write(f"\t\t<Cube time='{day}'>\n")
        text.writelines(f"\t\t\t<Cube currency='{code}' rate='{rate}'/>\n" for code, rate in rates.items())
        text.write("\t\t</Cube>\n")
    text.write("\t</Cube>\n</gesmes:Envelope>")
    return text.getvalue()


def write_rates_xml(path: Path, days: list[tuple[date, dict[str, str]]]) -> Path:
    path.write_text(xml_of(days), encoding="utf-8")
    return path
