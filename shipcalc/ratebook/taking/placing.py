"""Rows taken from a mail beside those of the rate book: new, the same, or in the place of earlier ones."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from typing import Literal

from shipcalc.ratebook.rows.sheet_kind import SheetKind
from shipcalc.ratebook.taking.targets import Prepared
from shipcalc.ratebook.workbook.columns import Row, columns_of
from shipcalc.ratebook.workbook.headers import headers_of
from shipcalc.ratebook.workbook.reader import read_rows
from shipcalc.ratebook.workbook.written import as_shown
from shipcalc.records import dataclass, replace
from shipcalc.sheets.reading import Sheet, letter

Status = Literal["new", "same", "changed"]


@dataclass(frozen=True, slots=True)
class Placed:
    """A row beside the rate book's.

    `over` is the row of the sheet (counted from 1) that it is written over, None for one below the others; `ends` are earlier
    rows that end on a day, with that day; `before` is what the earlier row said, and `where`.
    """

    prepared: Prepared
    status: Status
    before: str = ""
    where: str = ""
    over: int | None = None
    ends: tuple[tuple[int, date], ...] = ()


def placed_rows(rows: Sequence[Prepared], sheet: Sheet | None, kind: SheetKind, currency: str) -> tuple[Placed, ...]:
    """Return each row with its place. `sheet` is the rate book's, None where it has none yet."""
    earlier = read_rows(sheet, kind.row_type, currency=currency).rows if sheet is not None else ()
    by_key: dict[tuple[object, ...], list[Row]] = {}
    for row in earlier:
        by_key.setdefault(_key(row, rows[0].target.same), []).append(row) if rows else None
    placed = tuple(_placed(one, by_key.get(_key_of(one), []), currency) for one in rows)
    if not rows or not rows[0].target.together:
        return placed
    return tuple(replace(one, ends=(*one.ends, *_ended_with(one, placed, earlier))) for one in placed)


def beside_without_day(placed: Sequence[Placed], sheet: Sheet | None, currency: str) -> tuple[str, ...]:
    """Return the cells of earlier rows of the same tariffs that are not written over and that new rows do not end."""
    if sheet is None or not placed or not placed[0].prepared.target.together:
        return ()
    kind = placed[0].prepared.target.kind
    rows = read_rows(sheet, kind.row_type, currency=currency).rows
    ended = {row for row, _ in ended_rows(placed)} | {one.over for one in placed}
    known = {one.where for one in placed if one.status == "same"}
    return tuple(
        where
        for row in rows
        if row.at.row not in ended
        and (where := row.at.cell(placed[0].prepared.target.price[0])) not in known
        and any(_is_together(row, one) and _holds_with(row, one) for one in placed)
    )


def _ended_with(one: Placed, placed: Sequence[Placed], earlier: Sequence[Row]) -> Iterator[tuple[int, date]]:
    """Yield the earlier rows of one tariff that the new one ends: those with other bands, too."""
    begins = one.prepared.values.get("valid_from")
    written = {other.over for other in placed} | {row for other in placed for row, _ in other.ends}
    same = {other.where for other in placed if other.status == "same"}
    for row in earlier:
        is_kept = row.at.row in written or row.at.cell(one.prepared.target.price[0]) in same
        meets = not is_kept and _is_together(row, one) and _holds_with(row, one)
        if isinstance(begins, date) and meets and _begins_before(row, begins):
            yield row.at.row, begins - timedelta(days=1)


def _is_together(row: Row, one: Placed) -> bool:
    return all(_plain(getattr(row, f)) == _plain(_value(one.prepared, f)) for f in one.prepared.target.together)


def _holds_with(row: Row, one: Placed) -> bool:
    return _meets(row, one.prepared.values.get("valid_from"), one.prepared.values.get("valid_to"))


def _placed(one: Prepared, matches: Sequence[Row], currency: str) -> Placed:
    fields = (*one.target.price, "valid_from", "valid_to")
    for row in matches:
        if all(_plain(getattr(row, field)) == _plain(_value(one, field)) for field in fields):
            return Placed(one, "same", price_told(row, one, currency), row.at.cell(one.target.price[0]))
    begins, ends = one.values.get("valid_from"), one.values.get("valid_to")
    meeting = [row for row in matches if _meets(row, begins, ends)]
    latest = max(meeting or matches, key=lambda row: _day(row, "valid_from") or date.min, default=None)
    if latest is None:
        return Placed(one, "new")
    told, where = price_told(latest, one, currency), latest.at.cell(one.target.price[0])
    if not meeting:
        return Placed(one, "new", told, where)
    over = [row for row in meeting if not _begins_before(row, begins)]
    cut = tuple(
        (row.at.row, begins - timedelta(days=1))
        for row in meeting
        if isinstance(begins, date) and _begins_before(row, begins)
    )
    return Placed(one, "changed", told, where, over[-1].at.row if over else None, cut)


def price_told(row: Row, one: Prepared, currency: str) -> str:
    """Return what a row of the rate book asks, in words: 1,250 USD; 0.82 a mile, at least 450."""
    columns = columns_of(type(row))
    own = getattr(row, "currency", None) or currency
    sums = [
        (field, as_shown(value, columns[field], currency))
        for field in one.target.price
        if (value := getattr(row, field)) not in (None, "") and field != "currency"
    ]
    told = []
    for field, text in sums:
        if field in ("flat_minor", "amount_e4"):
            told.append(f"{text} {own}")
        elif field == "rate_e4":
            told.append(f"{text} {own} a mile")
        elif field in ("minimum_minor", "minimum_e4"):
            told.append(f"at least {text}")
    return ", ".join(told)


def _meets(row: Row, begins: object, ends: object) -> bool:
    """Return whether a row holds on a day on which the new one does."""
    first, last = _day(row, "valid_from"), _day(row, "valid_to")
    ended = isinstance(begins, date) and last is not None and last < begins
    later = isinstance(ends, date) and first is not None and first > ends
    return not ended and not later


def _day(row: Row, field: str) -> date | None:
    found: date | None = getattr(row, field)
    return found


def _begins_before(row: Row, begins: object) -> bool:
    return isinstance(begins, date) and (_day(row, "valid_from") or date.min) < begins


def _key(row: Row, fields: Sequence[str]) -> tuple[object, ...]:
    return tuple(_plain(getattr(row, field)) for field in fields)


def _key_of(one: Prepared) -> tuple[object, ...]:
    return tuple(_plain(_value(one, field)) for field in one.target.same)


def _value(one: Prepared, field: str) -> object:
    column = columns_of(one.target.kind.row_type)[field]
    return one.values.get(field, False if column.kind.value == "yes or no" else None)


def _plain(value: object) -> object:
    return value.casefold() if isinstance(value, str) else value or None


def letters_of(sheet: Sheet | None, kind: SheetKind, currency: str) -> Mapping[str, str]:
    """Return the column letter of each field of a sheet; in the order of its description where there is none yet."""
    columns = columns_of(kind.row_type)
    if sheet is None:
        return {field: letter(number) for number, field in enumerate(columns)}
    return {field: letter(at) for field, at in headers_of(sheet, columns, currency).at.items()}


def next_row(sheet: Sheet | None) -> int:
    """Return the first row, counted from 1, below all that stands on a sheet."""
    return max((number for number, _ in sheet.filled_rows()), default=0) + 2 if sheet is not None else 2


def ended_rows(placed: Sequence[Placed]) -> Iterator[tuple[int, date]]:
    """Yield the rows of a sheet that end, each once, on the earliest day."""
    days: dict[int, date] = {}
    for one in placed:
        for row, day in one.ends:
            days[row] = min(day, days.get(row, date.max))
    yield from sorted(days.items())
