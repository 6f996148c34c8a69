"""Published figures as they come out of a publisher's file, exact, each with its day."""

import re
from collections.abc import Mapping
from datetime import date, datetime
from decimal import Decimal, InvalidOperation
from typing import Literal

from shipcalc.records import dataclass

Subject = Literal["diesel", "exchange"]

WHOLE_COUNTRY = ""
_LARGEST_DIGITS = 20
_WRITTEN_DAYS = ("%Y-%m-%d", "%d %B %Y", "%b %d, %Y", "%B %d, %Y", "%m/%d/%Y")


@dataclass(frozen=True, slots=True)
class Publication:
    """The newest figures of one publisher's file.

    `figures` are by region (`""` the whole country) in dollars for a US gallon, or by currency in units for one euro; `day` is
    the day they are of. `source` names publisher and series in a few words.
    """

    subject: Subject
    source: str
    file: str
    day: date
    figures: Mapping[str, Decimal]


def find_day(cell: object) -> date | None:
    """Return the day in a cell, or the day that a text writes as publishers do: 2026-11-23, 23 November 2026, Nov 23, 2026,
    11/23/2026 (month first, as in the United States)."""
    if isinstance(cell, datetime):
        return cell.date()
    if isinstance(cell, date):
        return cell
    text = " ".join(str(cell or "").split())
    for form in _WRITTEN_DAYS:
        try:
            return datetime.strptime(text, form).date()  # noqa: DTZ007 - a day as it is published, of no zone
        except ValueError:
            continue
    return None


def find_figure(cell: object) -> Decimal | None:
    """Return a published figure, which has a point for its decimals; None for a blank, `N/A` and the like."""
    text = str(cell if cell is not None else "").strip()
    if isinstance(cell, bool) or len(text) > _LARGEST_DIGITS or not re.fullmatch(r"[0-9]+(\.[0-9]+)?", text):
        return None
    try:
        figure = Decimal(text)
    except InvalidOperation:
        return None
    return figure if figure > 0 else None
