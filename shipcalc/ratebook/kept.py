"""Sound rate books that were read before, kept in the user's cache folder by the content of their files.

A file of four lines of JSON, never a pickle: what a check is asked for, the rows of the home sheets, those of the sheet Lanes, of
which there may be many thousands, those of the overseas ones; each is read only by whom it concerns. Whatever is amiss with it
(deleted, half of another version, no rights) counts as not kept: the workbooks are then read again. Two programs that keep the
same book at once write the same bytes, each in one move.
"""

import hashlib
from collections.abc import Callable, Iterator, Mapping
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from msgspec import Raw, json

from shipcalc import __version__
from shipcalc.errors import Problem
from shipcalc.files import read_file
from shipcalc.ratebook.rows.overseas_sheets import OVERSEAS
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.rows.tables import SHEETS, WORKBOOKS, Tables
from shipcalc.ratebook.workbook.columns import Kind, Row, RowRef, columns_of
from shipcalc.records import dataclass, fields, replace
from shipcalc.sheets.keeping import find_kept_file, keep_file, kept_in

if TYPE_CHECKING:
    from shipcalc.ratebook.checks.shelf_life import ShelfLife

# Raise it when reading or checking says something else of the same cells.
READING = 19
MOST_BOOKS = 12
# What reading a file raises that is not there, or not as it was written.
_AMISS = (OSError, ValueError, TypeError, KeyError, AttributeError)


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a check says of a rate book, and from what it says it on another day; with faults there is no fingerprint."""

    fingerprint: str
    rules: PricingRules
    warnings: tuple[Problem, ...]
    life: "ShelfLife"


@dataclass(frozen=True, slots=True)
class Kept:
    """What a sound rate book comes to, without the folder it was read from.

    Where `overseas` and `priced_lanes` are given, the rows of the overseas sheets and of Lanes are not in `tables` yet: they make
    them, by field. `changes` are the
    days on which other rows hold than on the day before, None where nobody has looked.
    """

    tables: Tables
    rules: PricingRules
    fingerprint: str
    warnings: tuple[Problem, ...]
    overseas: Callable[[], Mapping[str, tuple[Row, ...]]] | None = None
    changes: tuple[date, ...] | None = None
    priced_lanes: Callable[[], Mapping[str, tuple[Row, ...]]] | None = None

    def rows_by_field(self) -> dict[str, Any]:
        """Return the tables by the name of their field."""
        return {field.name: getattr(self.tables, field.name) for field in fields(Tables)}


def key_of(folder: Path) -> str:
    """Return what a rate book is kept under: a hash of its files, the program and its row descriptions; empty for none."""
    digest = hashlib.sha256(_layout().encode())
    for name in WORKBOOKS:
        try:
            content = read_file(folder / name)
        except FileNotFoundError:
            if name != OVERSEAS:  # what is said of a missing one names its folder, and is not kept
                return ""
            continue
        except OSError:
            return ""
        digest.update(f"{name} {len(content)} ".encode() + content)
    return digest.hexdigest()


def find_verdict(key: str) -> Verdict | None:
    """Return what a check says of the book kept under a key, or None; no row of it is made."""
    from shipcalc.ratebook.checks.shelf_life import ShelfLife

    try:
        head, *_ = _lines_of(key)
        return Verdict(head.fingerprint, head.rules, head.warnings, json.decode(head.life, type=ShelfLife))
    except _AMISS:
        return None


def find_kept(key: str) -> Kept | None:
    """Return the book kept under a key, or None."""
    try:
        head, home, lanes, overseas = _lines_of(key)
        data = json.decode(home)
        rows: dict[str, Any] = _made(data["rows"], HOME)
        unread = {sheet: frozenset(names) for sheet, names in data["unread"].items()}
        tables = Tables(**rows, unread=unread)
        later = (partial(_made_of_text, text, part) for text, part in ((overseas, ABROAD), (lanes, LANES)))
        return Kept(tables, head.rules, head.fingerprint, head.warnings, next(later), head.changes, next(later))
    except _AMISS:
        return None


def keep(key: str, kept: Kept) -> None:
    """Keep a book; where that is not possible, nothing happens."""
    from shipcalc.ratebook.checks.shelf_life import shelf_life_of
    from shipcalc.ratebook.days import changes_in

    if not key or any(names is None for names in kept.tables.unread.values()):
        return
    home = {
        "unread": {sheet: sorted(names or ()) for sheet, names in kept.tables.unread.items()},
        "rows": _told(kept.tables, HOME),
    }
    rows = [json.encode(home), *(json.encode(_told(kept.tables, part)) for part in (LANES, ABROAD))]
    head = _Head(
        lengths=(len(rows[0]), len(rows[1]), len(rows[2])),
        fingerprint=kept.fingerprint,
        rules=replace(kept.rules, cells=dict(kept.rules.cells)),
        warnings=kept.warnings,
        changes=changes_in(kept.tables),
        life=Raw(json.encode(shelf_life_of(kept.tables))),
    )
    keep_file(_folder() / f"{key}.jsonl", b"\n".join((json.encode(head), *rows)), most=MOST_BOOKS)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Head:
    """The first line: what a check is asked for, and how long the other three are. `life` is read by a check alone."""

    lengths: tuple[int, int, int]
    fingerprint: str
    rules: PricingRules
    warnings: tuple[Problem, ...]
    changes: tuple[date, ...]
    life: Raw


def _lines_of(key: str) -> tuple[_Head, bytes, bytes, bytes]:
    """Return what the first line of a kept book says, and the others. Raises one of `_AMISS` where they are not as it says."""
    content = find_kept_file(_folder() / f"{key}.jsonl")
    if content is None:
        raise ValueError(key)
    head, home, lanes, overseas = content.split(b"\n")
    told = json.decode(head, type=_Head)
    if told.lengths != (len(home), len(lanes), len(overseas)):
        raise ValueError(key)
    return told, home, lanes, overseas


def _folder() -> Path:
    return kept_in("rate-books")


def _layout() -> str:
    """Return everything but the files that a kept book depends on; overseas sheets are described by their modules' text."""
    described = (f"{kind.name}:{','.join(columns_of(kind.row_type))}" for kind in SHEETS if not kind.is_overseas)
    return "|".join((__version__, str(READING), *described, *_module_texts()))


def _module_texts() -> Iterator[str]:
    modules = dict.fromkeys(kind.row.partition(".")[0] for kind in SHEETS if isinstance(kind.row, str))
    for module in modules:
        try:
            yield (Path(__file__).parent / "rows" / f"{module}.py").read_text(encoding="utf-8")
        except OSError:
            yield ",".join(",".join(columns_of(kind.row_type)) for kind in SHEETS if kind.is_overseas)


# The parts of a book that are read one without the other.
HOME, LANES, ABROAD = "home", "lanes", "overseas"


def part_of(kind: SheetKind) -> str:
    """Return in which part a sheet's rows are kept."""
    return ABROAD if kind.is_overseas else LANES if kind.rows == "lanes" else HOME


def _told(tables: Tables, part: str) -> dict[str, Any]:
    kinds = [kind for kind in SHEETS if part_of(kind) == part]
    return {kind.rows: _rows_out(kind, getattr(tables, kind.rows)) for kind in kinds}


def _made_of_text(text: bytes, part: str) -> dict[str, tuple[Row, ...]]:
    return _made(json.decode(text), part)


def _made(data: Mapping[str, Any], part: str) -> dict[str, tuple[Row, ...]]:
    kinds = [kind for kind in SHEETS if part_of(kind) == part]
    return {kind.rows: tuple(_rows_in(kind, data[kind.rows])) for kind in kinds}


def _rows_out(kind: SheetKind, rows: tuple[Row, ...]) -> dict[str, Any]:
    if not rows:
        return {"letters": {}, "workbook": "", "sheet": "", "rows": []}
    first, names = rows[0].at, list(columns_of(kind.row_type))
    return {
        "letters": dict(first.letters),
        "workbook": first.workbook,
        "sheet": first.sheet,
        "rows": [[row.at.row, *(getattr(row, name) for name in names)] for row in rows],
    }


def _rows_in(kind: SheetKind, data: Mapping[str, Any]) -> list[Row]:
    row_type = kind.row_type
    columns = columns_of(row_type)
    turned = [(n, _FROM_JSON[column.kind]) for n, column in enumerate(columns.values(), 1) if column.kind in _FROM_JSON]
    rows = []
    for cells in data["rows"]:
        for n, from_json in turned:
            cells[n] = from_json(cells[n])
        at = RowRef(data["workbook"], data["sheet"], cells[0], data["letters"])
        rows.append(row_type(at=at, **dict(zip(columns, cells[1:], strict=True))))
    return rows


_FROM_JSON: dict[Kind, Any] = {
    Kind.DATE: lambda cell: date.fromisoformat(cell) if cell else None,
    Kind.LIST: tuple,
}
