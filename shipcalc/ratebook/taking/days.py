"""Days in a mail's cells and sentences; which of day and month comes first is learnt from those that can be read one way only."""

import re
from collections.abc import Iterable, Iterator
from datetime import date, datetime, timedelta
from typing import Literal

from shipcalc.records import dataclass
from shipcalc.sheets.numbers import plain_text
from shipcalc.sheets.reading import CellValue

Order = Literal["month first", "day first", ""]
EARLIEST_YEAR, LATEST_YEAR = 2000, 2099
_NAMES = (
    "jan january januar", "feb february februar", "mar march marz", "apr april", "may mai", "jun june juni", "jul july juli",
    "aug august", "sep sept september", "oct october okt oktober", "nov november", "dec december dez dezember",
)  # fmt: skip
MONTHS = {name: number for number, names in enumerate(_NAMES, 1) for name in names.split()}
_MONTH = "|".join(sorted(MONTHS, key=len, reverse=True))
_NUMBERS = re.compile(
    r"(?<![\d/])(\d{1,2})(/)(\d{1,2})/(\d{4}|\d{2})(?![\d/])|(?<![\d.])(\d{1,2})(\.)(\d{1,2})\.(\d{4}|\d{2})(?![\d])|"
    r"(?<![\d-])(\d{1,2})(-)(\d{1,2})-(\d{4}|\d{2})(?![\d-])"
)
_ISO = re.compile(r"(?<!\d)(20\d{2})[-/.](\d{1,2})[-/.](\d{1,2})(?!\d)")
_DAY_MONTH = re.compile(
    rf"(?<!\d)(\d{{1,2}})(?:st|nd|rd|th|\.)?[ -]?(?:of )?({_MONTH})\b\.?,?[ -]?(20\d{{2}}|'?\d{{2}}(?!\d))?"
)
_MONTH_DAY = re.compile(rf"\b({_MONTH})\.? ?(\d{{1,2}})(?:st|nd|rd|th)?(?!\d),?(?: ?(20\d{{2}}|'\d{{2}}))?")
_DAYS_OF_MONTH = re.compile(
    rf"\b(?P<m1>{_MONTH})\.? ?(?P<a1>\d{{1,2}}) ?(?:-|–|to|thru) ?(?P<b1>\d{{1,2}}),? ?(?P<y1>20\d{{2}})|"
    rf"(?<!\d)(?P<a2>\d{{1,2}})\.? ?(?:-|–|to|bis|au|al) ?(?P<b2>\d{{1,2}})\.? ?(?:of |de )?(?P<m2>{_MONTH})\.?,? ?"
    r"(?P<y2>20\d{2})"
)
_MONTH_YEAR = re.compile(rf"\b({_MONTH})\.?,? ?[-/]?(20\d{{2}}|'\d{{2}})")


@dataclass(frozen=True, slots=True)
class Said:
    """A day that a text names, and where; of a whole month `day` is the first. It is None where `readings` are several."""

    day: date | None
    start: int
    end: int
    readings: tuple[date, ...] = ()
    is_month: bool = False
    without_year: bool = False


def order_in(texts: Iterable[str]) -> Order:
    """Return which of day and month comes first in the days of these texts; "" where none tells, or they contradict."""
    found: set[Order] = set()
    for text in texts:
        for found_day in _NUMBERS.finditer(plain_text(text)):
            first, _, second, _ = _parts(found_day)
            if int(first) > 12 >= int(second):
                found.add("day first")
            elif int(second) > 12 >= int(first):
                found.add("month first")
    return found.pop() if len(found) == 1 else ""


def days_in(text: str, order: Order, *, year: int = 0) -> tuple[Said, ...]:
    """Return the days that a text names, in their order; `year` is taken for those that name none."""
    lower = plain_text(text).casefold().replace("ä", "a")
    years = set(re.findall(r"(?<!\d)20\d{2}(?!\d)", lower))
    year = year or (int(years.pop()) if len(years) == 1 else 0)
    found = [*_iso(lower), *_numbers(lower, order), *_worded(lower, year)]
    taken: list[Said] = []
    for one in sorted(found, key=lambda said: (said.start, -said.end)):
        if not taken or one.start >= taken[-1].end:
            taken.append(one)
    return tuple(taken)


def day_in(value: CellValue, order: Order) -> date | tuple[date, ...] | None:
    """Return the day in a cell; several where it can be several, None where it is none."""
    if isinstance(value, datetime):
        return value.date()
    if isinstance(value, date):
        return value
    if not isinstance(value, str):
        return None
    found = days_in(value, order)
    if len(found) != 1:
        return None
    return found[0].day or found[0].readings or None


def end_of_month(day: date) -> date:
    """Return the last day of a day's month."""
    return (day.replace(day=28) + timedelta(days=4)).replace(day=1) - timedelta(days=1)


def _iso(text: str) -> Iterator[Said]:
    for found in _ISO.finditer(text):
        if day := _date(int(found[1]), int(found[2]), int(found[3])):
            yield Said(day, found.start(), found.end())


def _numbers(text: str, order: Order) -> Iterator[Said]:
    for found in _NUMBERS.finditer(text):
        one, divider, other_one, last = _parts(found)
        first, second, year = int(one), int(other_one), _year(last)
        american, other = _date(year, first, second), _date(year, second, first)
        if divider == "." and not order:
            american = None
        days = [day for day in (american, other) if day is not None]
        if len(set(days)) == 2 and order:
            days = [days[0] if order == "month first" else days[1]]
        if len(set(days)) == 1:
            yield Said(days[0], found.start(), found.end())
        elif days:
            yield Said(None, found.start(), found.end(), tuple(days))


def _parts(found: re.Match[str]) -> tuple[str, ...]:
    return tuple(part for part in found.groups() if part is not None)


def _worded(text: str, year: int) -> Iterator[Said]:
    for found in _DAYS_OF_MONTH.finditer(text):
        at = "1" if found["m1"] else "2"
        days = [_date(int(found[f"y{at}"]), MONTHS[found[f"m{at}"]], int(found[f"{one}{at}"])) for one in "ab"]
        if all(days):  # the first day ends where the second begins, so that both stay in the order of the text
            yield Said(days[0], found.start(), found.start(f"b{at}") - 1)
            yield Said(days[1], found.start(f"b{at}"), found.end())
    for pattern, day_at, month_at in ((_DAY_MONTH, 1, 2), (_MONTH_DAY, 2, 1)):
        for found in pattern.finditer(text):
            its_year = _year(found[3]) if found[3] else year
            if its_year and (day := _date(its_year, MONTHS[found[month_at]], int(found[day_at]))):
                yield Said(day, found.start(), found.end(), without_year=not found[3])
    for found in _MONTH_YEAR.finditer(text):
        if day := _date(_year(found[2]), MONTHS[found[1]], 1):
            yield Said(day, found.start(), found.end(), is_month=True)


def _year(text: str) -> int:
    bare = text.lstrip("'")
    return int(bare) if len(bare) == 4 else 2000 + int(bare)


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day) if EARLIEST_YEAR <= year <= LATEST_YEAR else None
    except ValueError:
        return None
