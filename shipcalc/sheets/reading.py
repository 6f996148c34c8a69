"""Tables from Excel and CSV files, every cell with its address.

The only place that opens a workbook to read it. Excel files are read by calamine, which does not disturb a workbook that is
open elsewhere; what Excel, LibreOffice and openpyxl save reads the same.
"""

import codecs
import csv
import errno
import hashlib
import io
import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import date, datetime, time, timedelta
from pathlib import Path, PurePath
from typing import TYPE_CHECKING

from shipcalc.errors import WrongInput, why
from shipcalc.files import LARGEST_FILE_BYTES, read_file
from shipcalc.records import dataclass, field, replace
from shipcalc.sheets.extent import MOST_CELLS, MOST_ROWS, MOST_SHEETS, check_extent, check_size
from shipcalc.sheets.hidden_cells import NOTHING_HIDDEN, Hidden, hidden_cells
from shipcalc.sheets.lost_cells import lost_cells
from shipcalc.sheets.package import Damaged, Locked, Package, TooLarge, repacked, unpacked
from shipcalc.sheets.parts import Parts, parts_of

if TYPE_CHECKING:
    from python_calamine import CalamineSheet, CalamineWorkbook

CellValue = str | int | float | bool | date | datetime | time | timedelta | None

_EXCEL_ENDINGS = (".xlsx", ".xlsm", ".xlsb", ".xls", ".ods")
# How a file begins. A workbook with a password is a compound file (MS-CFB) that names its stream EncryptedPackage (MS-OFFCRYPTO).
_ZIPPED, _COMPOUND = b"PK", bytes.fromhex("d0cf11e0a1b11ae1")
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")
# Of the older kind (MS-XLS, 2.4.21 and 2.4.117): how the workbook's globals begin, and what follows them where it has a password.
_GLOBALS, _GLOBALS_LENGTH, _FILE_PASS = bytes.fromhex("0908 1000 0006 0500"), 20, bytes.fromhex("2f00")
# OpenDocument 1.3 part 2, 4.4: what a part that is encrypted has in the list of parts.
_MANIFEST, _ENCRYPTED_PART = "META-INF/manifest.xml", b"encryption-data"


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet as rows of cells from A1 on. `rows[0][0]` is A1; an empty cell is None.

    `merged` holds the first and last cell of each merged range, counted from 0 as (row, column). `lost` holds the cells that
    read as empty and are not (see lost_cells), `unseen` the rows and columns that nobody sees.
    """

    workbook: str
    name: str
    rows: tuple[tuple[CellValue, ...], ...]
    hidden: bool = False
    merged: tuple[tuple[tuple[int, int], tuple[int, int]], ...] = ()
    lost: Mapping[tuple[int, int], str] = field(default_factory=dict)
    unseen: Hidden = NOTHING_HIDDEN

    def cell(self, row: int, column: int) -> str:
        """Return a cell's full address, row and column counted from 0: `trucking.xlsx › Per mile!D14`."""
        place = f"{letter(column)}{row + 1}"
        return f"{self.workbook} › {self.name}!{place}" if self.name else f"{self.workbook} › {place}"

    def filled_rows(self) -> Iterator[tuple[int, tuple[CellValue, ...]]]:
        """Yield (row counted from 0, cells) for each row that is not empty."""
        for number, row in enumerate(self.rows):
            if any(value is not None and not is_blank(value) for value in row):
                yield number, row


@dataclass(frozen=True, slots=True)
class WorkbookFile:
    """All sheets of a file, the SHA-256 of its bytes, and whether it counts its days from 1904 and not from 1900."""

    name: str
    sheets: tuple[Sheet, ...]
    sha256: str
    from_1904: bool = False

    def find_sheet(self, name: str) -> Sheet | None:
        """Return the sheet of that name, without regard to case and outer blanks, or None."""
        wanted = name.strip().casefold()
        return next((sheet for sheet in self.sheets if sheet.name.strip().casefold() == wanted), None)


def letter(column: int) -> str:
    """Return a column's letters, counted from 0: 0 → A, 26 → AA."""
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def is_blank(value: CellValue) -> bool:
    """Return whether a cell counts as empty: nothing, or only blanks (also the unbreakable ones)."""
    return value is None or (isinstance(value, str) and not value.strip())


def read_workbook(path: Path) -> WorkbookFile:
    """Read an Excel (or OpenDocument) workbook or a CSV file.

    Raises WrongInput where the file is missing, unreadable, locked by a password, too large or not a workbook.
    """
    return workbook_of(path.name, content_of(path))


def workbook_of(name: str, content: bytes) -> WorkbookFile:
    """Read the bytes of such a file; its name tells its kind. Raises WrongInput where they cannot be read."""
    if PurePath(name).suffix.lower() in _EXCEL_ENDINGS:
        return _excel_file(name, content)
    return WorkbookFile(name, (Sheet(name, "", _csv_rows(name, content)),), hashlib.sha256(content).hexdigest())


def content_of(path: Path) -> bytes:
    """Return the bytes of a file. Raises WrongInput where it is missing, too large or cannot be read."""
    try:
        return read_file(path)
    except IsADirectoryError:
        raise WrongInput("is a folder, not a file", where=str(path), remedy="name the file itself") from None
    except FileNotFoundError:
        raise WrongInput("there is no such file", where=str(path), remedy="check the name and the folder") from None
    except OSError as error:
        if error.errno == errno.EFBIG:
            raise _too_large(str(path)) from None
        raise WrongInput(f"cannot be read ({why(error)})", where=str(path), remedy="check its permissions") from None


def _excel_file(name: str, content: bytes) -> WorkbookFile:
    import python_calamine as calamine

    if not content:
        raise WrongInput(
            "the file is empty", where=name, remedy="save it again from Excel, or take a copy from a backup"
        )
    package = _package(name, content)
    if _has_password(package, content):
        raise _locked(name)
    parts = parts_of(package)
    check_extent(name, parts.sheets)
    try:
        with (
            _in_silence(),
            calamine.load_workbook(io.BytesIO(repacked(package) if package else content)) as book,
        ):
            sheets = _excel_sheets(name, book, parts)
    except calamine.PasswordError:
        raise _locked(name) from None
    except (calamine.CalamineError, OSError, ValueError):
        raise _not_opened(name, content) from None
    except BaseException as panic:
        if type(panic).__name__ != "PanicException":  # calamine's own mistake; its class is not to be had by name
            raise
        raise _not_opened(name, content) from None
    return WorkbookFile(name, sheets, hashlib.sha256(content).hexdigest(), parts.from_1904)


def _has_password(package: Package, content: bytes) -> bool:
    if package:
        return _ENCRYPTED_PART in package.get(_MANIFEST, b"")
    globals_at = content.find(_GLOBALS)
    is_old = globals_at >= 0 and content[globals_at + _GLOBALS_LENGTH :].startswith(_FILE_PASS)
    return content.startswith(_COMPOUND) and (is_old or _ENCRYPTED in content)


def _package(name: str, content: bytes) -> Package:
    """Return the parts of a zip, none for a workbook of the older kind. Raises WrongInput where it cannot be unpacked."""
    if not content.startswith(_ZIPPED):
        return {}
    try:
        return unpacked(content)
    except TooLarge:
        raise _too_large(name) from None
    except Locked:
        raise _locked(name) from None
    except Damaged:
        raise _not_opened(name, content) from None


@contextmanager
def _in_silence() -> Iterator[None]:
    """Keep a panic of calamine, which is told in a sentence, from writing its own trace on standard error."""
    try:
        kept = os.dup(2)
    except OSError:  # there is no standard error
        yield
        return
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 2)
        os.close(nowhere)
        yield
    finally:
        os.dup2(kept, 2)
        os.close(kept)


def _excel_sheets(name: str, book: "CalamineWorkbook", parts: Parts) -> tuple[Sheet, ...]:
    """Return the sheets of a workbook as rows. Raises WrongInput where it has too many, or one is too large."""
    from python_calamine import SheetVisibleEnum

    told = book.sheets_metadata
    if len(told) > MOST_SHEETS:
        raise WrongInput(
            f"has {len(told):,} sheets, and no more than {MOST_SHEETS} are read",
            where=name,
            remedy="remove those that are not needed, or split it",
        )
    hidden = {entry.name: entry.visible != SheetVisibleEnum.Visible for entry in told}  # older ones make the value anew
    read = {title: _excel_sheet(name, book.get_sheet_by_name(title), hidden[title]) for title in book.sheet_names}
    lost, unseen = lost_cells(parts.sheets), hidden_cells(parts.sheets)
    return tuple(
        replace(sheet, lost=lost.get(title, {}), unseen=unseen.get(title, NOTHING_HIDDEN))
        for title, sheet in read.items()
    )


def _not_opened(name: str, content: bytes) -> WrongInput:
    """Return what is wrong with a file that no workbook could be read from."""
    if not content.startswith((_ZIPPED, _COMPOUND)) and b"\0" not in content[:4096]:
        return WrongInput(
            "is text (CSV) under the name of a workbook",
            where=name,
            remedy="open it in Excel and save it as Excel Workbook (*.xlsx)",
        )
    return WrongInput(
        "is not a workbook that can be opened, or was only half written",
        where=name,
        remedy="open it in Excel and save it again as .xlsx",
    )


def _too_large(where: str) -> WrongInput:
    return WrongInput(
        f"is larger than {LARGEST_FILE_BYTES // 1_000_000} MB, or holds more than any workbook needs",
        where=where,
        remedy="remove pictures and empty formatted rows, or split it",
    )


def _locked(name: str) -> WrongInput:
    return WrongInput(
        "is protected by a password, so nothing in it can be read",
        where=name,
        remedy="open it in Excel, empty the password under File > Info > Protect Workbook > Encrypt with Password, and save it",
    )


def _excel_sheet(name: str, sheet: "CalamineSheet", hidden: bool) -> Sheet:
    check_size(f"{name} › {sheet.name}", rows=sheet.total_height, columns=sheet.total_width)
    rows = tuple(
        tuple(None if value == "" else value for value in row) for row in sheet.to_python(skip_empty_area=False)
    )
    return Sheet(name, sheet.name, rows, hidden, tuple(sheet.merged_cell_ranges or ()))


def _csv_rows(name: str, content: bytes) -> tuple[tuple[CellValue, ...], ...]:
    """Read a CSV file whatever its divider (comma, semicolon, tab, bar) and whether UTF-8, UTF-16 or Windows' Latin letters."""
    text = _decoded(name, content)
    divider = _divider(text)
    rows: list[tuple[CellValue, ...]] = []
    cells = 0
    try:
        for row in csv.reader(io.StringIO(text, newline=""), delimiter=divider, strict=True):
            rows.append(tuple(value or None for value in row))
            cells += len(row)
            if len(rows) > MOST_ROWS or cells > MOST_CELLS:
                raise WrongInput(
                    f"has more than {MOST_ROWS:,} rows, or more than {MOST_CELLS:,} cells",
                    where=name,
                    remedy="split it, or leave out what is not needed",
                )
    except csv.Error as error:
        raise WrongInput(
            f"cannot be read as CSV ({error})", where=name, remedy="save it again as CSV or .xlsx"
        ) from None
    return tuple(rows)


def _decoded(name: str, content: bytes) -> str:
    """Return a text file's letters. Excel's "Unicode text" is UTF-16 and says so in its first two bytes."""
    if content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return content.decode("utf-16", errors="replace")
    if b"\0" in content[:4096]:
        raise WrongInput("is neither a workbook nor a CSV file", where=name, remedy="save it as .xlsx or .csv")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", errors="replace")


def _divider(text: str) -> str:
    """Return what divides the cells: it stands in the most lines (a title above the headers may have none), and most often."""
    lines = [line for line in text[:20_000].split("\n")[:40] if line.strip()]
    return max(",;\t|", key=lambda sign: (sum(sign in line for line in lines), sum(line.count(sign) for line in lines)))
