"""The XML parts of an .xlsx file: what a reader of values does not say (formulas, hidden rows, which calendar).

ECMA-376 part 1, 18.2 (workbook) and 18.3 (sheets). A file of another kind has no parts.
"""

import io
import re
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from shipcalc.records import dataclass, field

if TYPE_CHECKING:
    from zipfile import ZipFile

LARGEST_SHEET_BYTES = 200_000_000

_SHEET = re.compile(rb"<sheet\b[^>]*>")
_RELATION = re.compile(rb"<Relationship\b[^>]*>")
_ATTRIBUTE = re.compile(rb"""([\w:]+)\s*=\s*["']([^"']*)["']""")
_PROPERTIES = re.compile(rb"<workbookPr\b[^>]*>")
_TRUE = (b"1", b"true")
# The five names that XML itself defines; the table of all names in HTML takes 5 ms to load.
_ENTITIES = (("&lt;", "<"), ("&gt;", ">"), ("&quot;", '"'), ("&apos;", "'"), ("&amp;", "&"))


@dataclass(frozen=True, slots=True)
class Parts:
    """The XML of each sheet by its name, and whether the workbook counts its days from 1904 and not from 1900.

    Behind a sheet that hides rows stands the XML of its tables, which hold the filters.
    """

    sheets: Mapping[str, bytes] = field(default_factory=dict)
    from_1904: bool = False


def parts_of(content: bytes) -> Parts:
    """Return the parts of an .xlsx file's bytes; none for a file of another kind, or one that is half written."""
    from zipfile import BadZipFile, ZipFile

    try:
        with ZipFile(io.BytesIO(content)) as archive:
            workbook = archive.read("xl/workbook.xml")
            return Parts(dict(_sheets(archive, workbook)), _counts_from_1904(workbook))
    except (BadZipFile, KeyError, NotImplementedError, RuntimeError, OSError, EOFError):
        return Parts()


def attributes(tag: bytes) -> dict[bytes, bytes]:
    """Return a tag's attributes by name."""
    return dict(_ATTRIBUTE.findall(tag))


def hides_rows(sheet: bytes) -> bool:
    """Return whether anything among a sheet's rows is hidden; columns stand before them."""
    return sheet.find(b"hidden=", sheet.find(b"<sheetData")) != -1


def is_true(value: bytes | None) -> bool:
    """Return whether an attribute says yes (xsd:boolean)."""
    return value in _TRUE


def plain(xml: bytes) -> str:
    """Return text without XML's own names for its signs: `&lt;` → `<`."""
    text = xml.decode()
    for name, sign in _ENTITIES:
        text = text.replace(name, sign)
    return text


def _sheets(archive: "ZipFile", workbook: bytes) -> Iterator[tuple[str, bytes]]:
    """Yield (name, XML) of each sheet."""
    relations = (attributes(tag) for tag in _RELATION.findall(archive.read("xl/_rels/workbook.xml.rels")))
    targets = {relation.get(b"Id"): relation.get(b"Target", b"").decode() for relation in relations}
    known = set(archive.namelist())
    for tag in _SHEET.findall(workbook):
        sheet = attributes(tag)
        target = targets.get(sheet.get(b"r:id"), "")
        part = target.lstrip("/") if target.startswith("/") else f"xl/{target}"
        if part in known and archive.getinfo(part).file_size <= LARGEST_SHEET_BYTES:
            xml = archive.read(part)
            yield plain(sheet.get(b"name", b"")), xml + _filters(archive, part, xml, known)


def _filters(archive: "ZipFile", part: str, xml: bytes, known: set[str]) -> bytes:
    """Return the XML of a sheet's tables, whose filters stand in them, where the sheet hides any row."""
    folder, _, name = part.rpartition("/")
    relations = f"{folder}/_rels/{name}.rels"
    if b"<tablePart" not in xml or not hides_rows(xml) or relations not in known:
        return b""
    targets = (attributes(tag).get(b"Target", b"").decode() for tag in _RELATION.findall(archive.read(relations)))
    tables = (f"xl/tables/{target.rpartition('/')[2]}" for target in targets if "/tables/" in target)
    return b"".join(archive.read(table) for table in tables if table in known)


def _counts_from_1904(workbook: bytes) -> bool:
    found = _PROPERTIES.search(workbook)
    return found is not None and is_true(attributes(found[0]).get(b"date1904"))
