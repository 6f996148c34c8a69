"""Sound rate books that were read before, kept in the user's cache folder by the content of their files.

JSON, never a pickle. Whatever is amiss with it (deleted, half of another version, no rights) counts as not kept: the workbooks
are then read again. Two programs that keep the same book at once write the same bytes, each in one move.
"""

import hashlib
import json
from collections.abc import Callable, Iterator, Mapping
from contextlib import suppress
from dataclasses import asdict, dataclass, fields, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from shipcalc import __version__
from shipcalc.errors import Problem, WrongInput
from shipcalc.ratebook.columns import Kind, Row, RowRef, columns_of
from shipcalc.ratebook.rules import PricingRules
from shipcalc.ratebook.tables import OVERSEAS, SHEETS, WORKBOOKS, SheetKind, Tables
from shipcalc.sheets.reading import LARGEST_FILE_BYTES

# Raise it when reading changes what the same cells come to.
READING = 6
MOST_BOOKS = 12


@dataclass(frozen=True, slots=True)
class Kept:
    """What a sound rate book comes to, without the folder it was read from.

    Where `overseas` is given, the rows of the overseas sheets are not in `tables` yet: it makes them, by field.
    """

    tables: Tables
    rules: PricingRules
    fingerprint: str
    warnings: tuple[Problem, ...]
    overseas: Callable[[], Mapping[str, tuple[Row, ...]]] | None = None

    def rows_by_field(self) -> dict[str, Any]:
        """Return the tables by the name of their field."""
        return {field.name: getattr(self.tables, field.name) for field in fields(Tables)}


def key_of(folder: Path) -> str:
    """Return what a rate book is kept under: a hash of its files, the program and its row descriptions; empty for none."""
    digest = hashlib.sha256(_layout().encode())
    for name in WORKBOOKS:
        try:
            if (folder / name).stat().st_size > LARGEST_FILE_BYTES:
                return ""
            content = (folder / name).read_bytes()
        except FileNotFoundError:
            if name != OVERSEAS:  # what is said of a missing one names its folder, and is not kept
                return ""
            continue
        except OSError:
            return ""
        digest.update(f"{name} {len(content)} ".encode() + content)
    return digest.hexdigest()


def find_kept(key: str) -> Kept | None:
    """Return the book kept under a key, or None."""
    if not key:
        return None
    try:
        data = json.loads((_folder() / f"{key}.json").read_bytes())
        rows: dict[str, Any] = _made(data["rows"], overseas=False)
        rules = data["rules"]
        for end in ("valid_from", "valid_to"):
            rules[end] = date.fromisoformat(rules[end]) if rules[end] else None
        unread = {sheet: frozenset(names) for sheet, names in data["unread"].items()}
        warnings = tuple(Problem(*problem) for problem in data["warnings"])
        overseas = str(data["overseas"])
        return Kept(
            Tables(**rows, unread=unread),
            PricingRules(**rules),
            data["fingerprint"],
            warnings,
            partial(_made_of_text, overseas),
        )
    except (OSError, ValueError, TypeError, KeyError, AttributeError):
        return None


def keep(key: str, kept: Kept) -> None:
    """Keep a book; where that is not possible, nothing happens."""
    from shipcalc.sheets.saving import save

    if not key or any(names is None for names in kept.tables.unread.values()):
        return
    data = {
        "fingerprint": kept.fingerprint,
        "rules": asdict(replace(kept.rules, cells=dict(kept.rules.cells))),
        "warnings": [[p.cell, p.message, p.remedy, p.severity] for p in kept.warnings],
        "unread": {sheet: sorted(names or ()) for sheet, names in kept.tables.unread.items()},
        "rows": _told(kept.tables, overseas=False),
        # As text, which is read again only where an overseas quote asks for it.
        "overseas": json.dumps(_told(kept.tables, overseas=True), ensure_ascii=False, default=_day),
    }
    with suppress(WrongInput, OSError):
        save(_folder() / f"{key}.json", json.dumps(data, ensure_ascii=False, default=_day).encode())
        _forget_the_oldest()


def _folder() -> Path:
    import platformdirs

    return Path(platformdirs.user_cache_path("shipcalc", appauthor=False)) / "rate-books"


def _forget_the_oldest() -> None:
    books = sorted(_folder().glob("*.json"), key=lambda path: path.stat().st_mtime)
    for path in books[:-MOST_BOOKS]:
        path.unlink(missing_ok=True)


def _layout() -> str:
    """Return everything but the files that a kept book depends on; overseas sheets are described by their modules' text."""
    described = (f"{kind.name}:{','.join(columns_of(kind.row_type))}" for kind in SHEETS if not kind.is_overseas)
    return "|".join((__version__, str(READING), *described, *_module_texts()))


def _module_texts() -> Iterator[str]:
    modules = dict.fromkeys(kind.row.partition(".")[0] for kind in SHEETS if isinstance(kind.row, str))
    for module in modules:
        try:
            yield (Path(__file__).parent / f"{module}.py").read_text(encoding="utf-8")
        except OSError:
            yield ",".join(",".join(columns_of(kind.row_type)) for kind in SHEETS if kind.is_overseas)


def _told(tables: Tables, *, overseas: bool) -> dict[str, Any]:
    kinds = [kind for kind in SHEETS if kind.is_overseas == overseas]
    return {kind.rows: _rows_out(kind, getattr(tables, kind.rows)) for kind in kinds}


def _made_of_text(text: str) -> dict[str, tuple[Row, ...]]:
    return _made(json.loads(text), overseas=True)


def _made(data: Mapping[str, Any], *, overseas: bool) -> dict[str, tuple[Row, ...]]:
    kinds = [kind for kind in SHEETS if kind.is_overseas == overseas]
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
    columns = columns_of(kind.row_type)
    turned = [(n, _FROM_JSON[column.kind]) for n, column in enumerate(columns.values(), 1) if column.kind in _FROM_JSON]
    rows = []
    for cells in data["rows"]:
        for n, from_json in turned:
            cells[n] = from_json(cells[n])
        at = RowRef(data["workbook"], data["sheet"], cells[0], data["letters"])
        rows.append(kind.row_type(at=at, **dict(zip(columns, cells[1:], strict=True))))
    return rows


def _day(value: object) -> str:
    assert isinstance(value, date), f"{value!r} has no place in a rate book"
    return value.isoformat()


_FROM_JSON: dict[Kind, Any] = {
    Kind.DATE: lambda cell: date.fromisoformat(cell) if cell else None,
    Kind.LIST: tuple,
}
