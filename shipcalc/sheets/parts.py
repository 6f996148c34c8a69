"""The XML parts of an .xlsx file: what a reader of values does not say (formulas, hidden rows, which calendar).

ECMA-376 part 1, 18.2 (workbook) and 18.3 (sheets). A file of another kind has no parts.
"""

import re
from collections.abc import Iterator, Mapping

from shipcalc.records import dataclass, field
from shipcalc.sheets.package import Package

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


def parts_of(package: Package) -> Parts:
    """Return the parts of an .xlsx file; none for a file of another kind."""
    workbook = package.get("xl/workbook.xml")
    if workbook is None:
        return Parts()
    return Parts(dict(_sheets(package, workbook)), _counts_from_1904(workbook))


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
    text = xml.decode(errors="replace")
    for name, sign in _ENTITIES:
        text = text.replace(name, sign)
    return text


def _sheets(package: Package, workbook: bytes) -> Iterator[tuple[str, bytes]]:
    """Yield (name, XML) of each sheet."""
    relations = (attributes(tag) for tag in _RELATION.findall(package.get("xl/_rels/workbook.xml.rels", b"")))
    targets = {relation.get(b"Id"): plain(relation.get(b"Target", b"")) for relation in relations}
    for tag in _SHEET.findall(workbook):
        sheet = attributes(tag)
        target = targets.get(sheet.get(b"r:id"), "")
        part = target.lstrip("/") if target.startswith("/") else f"xl/{target}"
        xml = package.get(part)
        if xml is not None:
            yield plain(sheet.get(b"name", b"")), xml + _filters(package, part, xml)


def _filters(package: Package, part: str, xml: bytes) -> bytes:
    """Return the XML of a sheet's tables, whose filters stand in them, where the sheet hides any row."""
    folder, _, name = part.rpartition("/")
    relations = package.get(f"{folder}/_rels/{name}.rels", b"")
    if b"<tablePart" not in xml or not hides_rows(xml):
        return b""
    targets = (plain(attributes(tag).get(b"Target", b"")) for tag in _RELATION.findall(relations))
    tables = (f"xl/tables/{target.rpartition('/')[2]}" for target in targets if "/tables/" in target)
    return b"".join(package.get(table, b"") for table in tables)


def _counts_from_1904(workbook: bytes) -> bool:
    found = _PROPERTIES.search(workbook)
    return found is not None and is_true(attributes(found[0]).get(b"date1904"))
