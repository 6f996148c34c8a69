"""What takes weeks before a vehicle may leave: an import approval, a lender's letter. All is dated from the day it is there."""

from dataclasses import replace
from datetime import date, timedelta

from shipcalc.paperwork.needs import Facts, tasks_needed
from shipcalc.pricing.landed import age_in_years
from shipcalc.quote.explain.paper_trail import task_rules
from shipcalc.quote.network.territory import is_domestic, is_filed
from shipcalc.quote.price.terms import find_term
from shipcalc.quote.request import Request
from shipcalc.quote.time.days_in_words import day_in_words
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.paperwork import STAGES, TaskRow
from shipcalc.records import dataclass

_BEFORE_IT_LEAVES = frozenset(STAGES[: STAGES.index("pickup") + 1])


@dataclass(frozen=True, slots=True)
class Lead:
    """The request as it may set out, and what is said where that is later than it was asked for."""

    request: Request
    said: tuple[str, ...]


def with_lead(request: Request, book: RateBook, as_of: date) -> Lead:
    """Return the request of a shipment abroad, ready no sooner than what must be in hand before it leaves.

    All that takes long is begun on the day of the quote. What hangs on the ship or on the treatment at customs is not asked.
    """
    waits = [
        (as_of + timedelta(days=(row.takes_days or 0) + max(-row.days, 0)), row)
        for row in _rows(request, book, as_of)
        if row.takes_days and row.stage in _BEFORE_IT_LEAVES
    ]
    first, longest = max(waits, key=lambda wait: wait[0], default=(request.ready, None))
    if longest is None or first <= request.ready:
        return Lead(request, ())
    return Lead(replace(request, ready=first), (_told(first, longest),))


def _told(first: date, row: TaskRow) -> str:
    task = f"{row.task[:1].lower()}{row.task[1:]}"
    return f"It leaves no sooner than {day_in_words(first)}: to {task} takes about {row.takes_days} days once you have said yes."


def _rows(request: Request, book: RateBook, as_of: date) -> list[TaskRow]:
    country = request.to.country
    term = find_term(request.wishes.term or book.pricing.overseas_term)
    if term is None:
        return []
    return [
        row
        for vehicle in request.vehicles
        for row in tasks_needed(
            task_rules(book),
            Facts(
                overseas=not is_domestic(country),
                export_filing=is_filed(country),
                to_country=country,
                mode="roro",
                loaded=None,
                term=term.code,
                seller_pays=term.seller_pays,
                title=vehicle.title,
                runs=vehicle.runs,
                value_minor=vehicle.value_minor,
                age_years=age_in_years(vehicle, as_of),
            ),
        )
    ]
