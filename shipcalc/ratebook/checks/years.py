"""Days that were typed with another year than was meant: one or ten off what stands beside them, or beyond the book."""

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.dates import dated_rows
from shipcalc.ratebook.checks.remarks import warning
from shipcalc.ratebook.rows.rules import PricingRules
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.workbook.columns import Row

_SLIPS = (1, -1, 2, -2, 10, -10)
_FAR, _NEAR = timedelta(days=150), timedelta(days=31)
_LONGEST_BOOK_YEARS = 10


def days_are_of_one_year(tables: Tables) -> Iterator[Problem]:
    """Prices of one week, and the ships of a season, are of one year; prices one below the other are in order."""
    yield from _odd_days([row for row in tables.fuel if row.as_of is not None], "as_of", "scheme")
    yield from _odd_days(tables.diesel, "as_of", "region")
    yield from _odd_days(tables.currencies, "as_of", "currency")
    yield from _odd_days(tables.ocean, "first_sailing", "service")


def _odd_days(rows: Sequence[Row], field: str, name: str) -> Iterator[Problem]:
    days = [_day(row, field) for row in rows]
    names = [str(getattr(row, name)).casefold() for row in rows]
    own: dict[str, list[int]] = {}
    for at, one in enumerate(names):
        own.setdefault(one, []).append(at)
    often = Counter(days)
    for at, row in enumerate(rows):
        of_name = [days[n] for n in own[names[at]]]
        meant = (
            _as_others(days[at], of_name, often)
            or _in_order(of_name, own[names[at]].index(at))
            or _among(days[at], days[:at] + days[at + 1 :])
        )
        if meant is not None:
            message = f"{days[at]} does not go with what stands beside it, and {meant} would"
            yield warning(row, field, message, f"write {meant} if another year was meant")


def _as_others(day: date, of_name: Sequence[date], often: Counter[date]) -> date | None:
    """Return the day of another year that all others have, where nobody else has this one."""
    if often[day] > 1:
        return None
    meant = [other for years in _SLIPS if often[other := _moved(day, years)] > 1 and other not in of_name]
    return meant[0] if meant else None


def _in_order(days: Sequence[date], at: int) -> date | None:
    """Return the day of another year that would stand in order, where the others do and this one does not."""
    others = [*days[:at], *days[at + 1 :]]
    if len(others) < 2 or others != sorted(others) or list(days) == sorted(days):
        return None
    low = days[at - 1] if at else date.min
    high = days[at + 1] if at + 1 < len(days) else max(low, date.max - timedelta(days=400))
    fits = [other for years in _SLIPS if low < (other := _moved(days[at], years)) < high and other - low < _FAR * 2]
    return fits[0] if fits and at else None


def _among(day: date, others: Sequence[date]) -> date | None:
    """Return the day of another year that lies among the others, where this one is far from all of them."""
    if len(others) < 2 or min(abs(day - other) for other in others) <= _FAR:
        return None
    first, last = min(others) - _NEAR, max(others) + _NEAR
    return next((other for years in _SLIPS if first <= (other := _moved(day, years)) <= last), None)


def rows_stay_within_the_book(tables: Tables, rules: PricingRules) -> Iterator[Problem]:
    """No row ends after the book does; none that began before the book lasts a year too long; no book lasts for decades."""
    if rules.valid_from and rules.valid_to and rules.valid_to.year - rules.valid_from.year > _LONGEST_BOOK_YEARS:
        message = f"the rate book would hold for {rules.valid_to.year - rules.valid_from.year} years"
        yield Problem(rules.cells["Valid to"], message, "correct the year", "warning")
    rows = dated_rows(tables)
    starts, ends = (Counter(_day(row, field) for row in rows) for field in ("valid_from", "valid_to"))
    for row in rows:
        if row.valid_to and rules.valid_to and row.valid_to > rules.valid_to:
            message = f"the row ends on {row.valid_to}, after the rate book ends on {rules.valid_to}"
            yield warning(
                row, "valid_to", message, "correct the year, or leave it blank if the row holds until further notice"
            )
        elif row.valid_from and (meant := _meant_start(row.valid_from, row.valid_to, rules, starts)):
            message = f"the row begins on {row.valid_from}; {meant} would go with the other days"
            yield warning(row, "valid_from", message, f"write {meant} if another year was meant")
        elif row.valid_to and (meant := _as_others(row.valid_to, (), ends)):
            message = f"the row ends on {row.valid_to}, and other rows on {meant}"
            yield warning(row, "valid_to", message, f"write {meant} if another year was meant")


def _meant_start(first: date, last: date | None, rules: PricingRules, starts: Counter[date]) -> date | None:
    """Return the first day that other rows have, or that makes a row from before the book last less than a year."""
    as_others = _as_others(first, (), starts)
    if as_others or not (last and rules.valid_from and first < rules.valid_from):
        return as_others
    whole_years = any(abs(_moved(first, n) - last) <= timedelta(days=1) for n in range(1, _LONGEST_BOOK_YEARS))
    later = _moved(first, (last - first).days // 365)
    return later if last - first > timedelta(days=366) and not whole_years and later < last else None


def _moved(day: date, years: int) -> date:
    year = min(max(day.year + years, date.min.year), date.max.year)
    return day.replace(year=year, day=28) if (day.month, day.day) == (2, 29) else day.replace(year=year)


def _day(row: Row, field: str) -> date:
    day: date = getattr(row, field) or date.min
    return day


CHECKS = (days_are_of_one_year,)
