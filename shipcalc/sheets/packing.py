"""A workbook as bytes: always the same ones, with its formulas' results, and with no maker's mark but ours."""

import re
from collections.abc import Mapping, Sequence
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape
from zipfile import ZIP_DEFLATED, BadZipFile, ZipFile, ZipInfo

from shipcalc.files import read_file

if TYPE_CHECKING:
    from datetime import datetime

    from openpyxl import Workbook
    from openpyxl.packaging.core import DocumentProperties

_MAKER = "docProps/app.xml"
_FIRST_ZIP_DATE = (1980, 1, 1, 0, 0, 0)  # the earliest that a zip file can hold
_SHEET = re.compile(r"xl/worksheets/sheet(\d+)\.xml")
_FORMULA_CELL = re.compile(rb'<c r="([A-Z]+\d+)"([^>]*)>(<f>.*?</f>)<v ?/>', re.DOTALL)
_NUMBER = re.compile(r"-?\d+(\.\d+)?")
# The program that wrote the file is ours; a reader that trusts only programs it knows then computes the formulas anew.
_APPLICATION = (
    b'<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties">'
    b"<Application>shipcalc</Application></Properties>"
)


def packed(book: "Workbook", shown: Sequence[Mapping[str, str]]) -> bytes:
    """Return the .xlsx file. `shown` gives, for each sheet in order, what its formulas show."""
    from openpyxl.writer.excel import ExcelWriter
    from openpyxl.xml.functions import tostring

    properties: DocumentProperties = book.properties
    made: datetime | None = properties.created
    loose, tight = BytesIO(), BytesIO()
    ExcelWriter(book, ZipFile(loose, "w")).save()
    properties.modified = made  # saving has set it to the hour of the clock
    with ZipFile(loose) as source, ZipFile(tight, "w", ZIP_DEFLATED) as target:
        for name in source.namelist():
            content = source.read(name)
            if name == _MAKER:
                content = _APPLICATION
            elif name == "docProps/core.xml":
                content = tostring(properties.to_tree())  # type: ignore[assignment] # bytes, whatever the stubs say
            elif sheet := _SHEET.fullmatch(name):
                content = _with_results(content, shown[int(sheet[1]) - 1])
            entry = ZipInfo(name, _FIRST_ZIP_DATE)
            entry.compress_type = ZIP_DEFLATED
            target.writestr(entry, content)
    return tight.getvalue()


def was_saved_by_others(path: Path) -> bool:
    """Whether a file stands there that another program has saved since, so that somebody's work may be in it."""
    try:
        with ZipFile(BytesIO(read_file(path))) as book:
            return book.read(_MAKER) != _APPLICATION
    except (OSError, BadZipFile, KeyError):
        return path.exists()


def _with_results(sheet: bytes, shown: Mapping[str, str]) -> bytes:
    """Write beside each formula what it shows, so that a preview that computes nothing is not empty."""
    if not shown:
        return sheet

    def completed(cell: re.Match[bytes]) -> bytes:
        result = shown.get(cell[1].decode())
        if result is None:
            return cell[0]
        kind = b"" if _NUMBER.fullmatch(result) else b' t="str"'
        return b'<c r="%b"%b%b>%b<v>%b</v>' % (cell[1], cell[2], kind, cell[3], escape(result).encode())

    return _FORMULA_CELL.sub(completed, sheet)
