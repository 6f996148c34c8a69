"""What must be done before a vehicle may leave: the deposit and the booking, an import approval, a lender's letter.

All is dated from the day it is there.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Hashable, Iterator, Sequence
from datetime import date, timedelta
from functools import lru_cache

from shipcalc.paperwork.needs import Facts, Rules, as_travelled, rules_of, tasks_needed
from shipcalc.places.place import Place
from shipcalc.places.road.reach import are_joined, land_of
from shipcalc.pricing.facts import age_in_years
from shipcalc.quote.explain.paper_trail import task_rules
from shipcalc.quote.network.territory import is_domestic, is_filed, is_home
from shipcalc.quote.price.terms import Term, find_term
from shipcalc.quote.request import Request
from shipcalc.quote.time.booked import FROM_THE_ACCEPTANCE, before_pickup, booked_on
from shipcalc.quote.time.days_in_words import day_in_words
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.paperwork import TaskRow
from shipcalc.records import dataclass, replace
from shipcalc.schedule.working_days import OFFICE, working_day_from
from shipcalc.trade import MOMENTS
from shipcalc.vehicles.vehicle import Vehicle

_BEFORE_IT_LEAVES = frozenset(MOMENTS[: MOMENTS.index("pickup") + 1])


@dataclass(frozen=True, slots=True)
class Lead:
    """The request as it may set out, and what is said where that is later than it was asked for.

    `said` may change the decision; that a truck is booked first, is `assumed`.
    """

    request: Request
    said: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()


def with_lead(request: Request, book: RateBook, as_of: date, *, collected: bool = False) -> Lead:
    """Return the request, ready no sooner than what must be in hand before it leaves; `collected`: the buyer comes for it.

    All that takes long is begun on the day of the quote. What hangs on the ship or on the treatment at customs is not asked.
    """
    rows = tuple(_rows(request, book, as_of, collected=collected))
    waits = [(_in_hand(row, as_of), row) for row in rows if row.takes_days and row.stage in _BEFORE_IT_LEAVES]
    first, longest = max(waits, key=lambda wait: wait[0], default=(request.ready, None))
    booked = booked_on(rows, as_of)
    if max(first, booked) <= request.ready:
        return Lead(request)
    assumed = () if collected or booked <= request.ready else (_told_booked(booked, (booked - as_of).days),)
    if longest is None or first < booked:
        return Lead(replace(request, ready=booked), assumed=assumed)
    return Lead(replace(request, ready=first), (_told(first, longest),), assumed)


def _told_booked(day: date, days: int) -> str:
    by = day_in_words(day)
    return f"The truck is booked once your deposit is in, by {by}, {days} days after you accept; it comes after that."


def _in_hand(row: TaskRow, as_of: date) -> date:
    """Return the first day to leave: what comes on a Sunday is in the office's hands on Monday."""
    done = working_day_from(as_of + timedelta(days=row.takes_days or 0), OFFICE)
    return done + timedelta(days=max(-row.days, 0))


def _told(first: date, row: TaskRow) -> str:
    what = row.task.partition(";")[0].partition(":")[0].partition(" (")[0]
    task = f"{what[:1].lower()}{what[1:]}"
    return f"It cannot leave before {day_in_words(first)}: about {row.takes_days} days after you accept to {task}."


def _rows(request: Request, book: RateBook, as_of: date, *, collected: bool) -> Iterator[TaskRow]:
    term, modes = _how(request, book, collected=collected)
    country = request.to.country
    for vehicle in request.vehicles if term else ():
        for mode in modes:
            assert term is not None, "no term, no vehicles"
            facts = Facts(
                day=as_of,
                overseas=not is_domestic(country),
                export_filing=is_filed(country),
                to_country=country,
                mode=mode,
                loaded=None,
                term=term.code,
                seller_pays=as_travelled(term.seller_pays, mode),
                title=vehicle.title,
                runs=vehicle.runs,
                value_minor=vehicle.value_minor,
                age_years=age_in_years(vehicle, as_of),
            )
            yield from tasks_needed(_asked_of(book), facts)


def _how(request: Request, book: RateBook, *, collected: bool) -> tuple[Term | None, tuple[str, ...]]:
    """Return under which term, and in which ways it may travel: over a border papers are due sooner than for a ship."""
    to = request.to
    if collected:
        return find_term("EXW"), ("collected",)
    if is_home(to.country, to.subdivision):
        return find_term("DAP"), ("truck",)
    return find_term(request.wishes.term or book.pricing.overseas_term), _by_ship_or_road(request.starts, to)


def _by_ship_or_road(starts: Sequence[Place], to: Place) -> tuple[str, ...]:
    by_road = all(are_joined(start, land_of(start), to, land_of(to)) for start in dict.fromkeys(starts))
    return ("roro", "truck") if by_road else ("roro",)


def kind_of_destination(start: Place, to: Place, book: RateBook) -> Hashable:
    """Return all of a destination abroad that `with_lead` hangs on: to those of one kind a vehicle leaves on the same day."""
    named = to.country if to.country.casefold() in _countries_asked(book) else ""
    return is_domestic(to.country), is_filed(to.country), named, _by_ship_or_road((start,), to)


def kind_of_vehicle(vehicle: Vehicle, book: RateBook, as_of: date) -> Hashable:
    """Return all of a vehicle that `with_lead` hangs on: of one kind, all leave for the same destination on the same day."""
    values, ages = _bounds(book)
    age, value = age_in_years(vehicle, as_of), vehicle.value_minor
    return (
        vehicle.title,
        vehicle.runs,
        None if value is None else bisect_left(values, value),
        None if age is None else bisect_right(ages, age),
    )


@lru_cache(maxsize=8)
def _bounds(book: RateBook) -> tuple[list[int], list[int]]:
    """Return the values over which, and the ages from or under which, a long task is asked for, each in order."""
    rows = _asked_of(book).rows
    values = {row.value_over_minor for row in rows}
    ages = {bound for row in rows for bound in (row.age_from, row.age_under)}
    return sorted(value for value in values if value is not None), sorted(age for age in ages if age is not None)


@lru_cache(maxsize=8)
def _countries_asked(book: RateBook) -> frozenset[str]:
    """Return the countries that these tasks ask for, in lower case."""
    return frozenset(code.casefold() for row in _asked_of(book).rows for code in row.to_country)


@lru_cache(maxsize=8)
def _asked_of(book: RateBook) -> Rules[TaskRow]:
    """Return all rows of the tasks that may take days, or that count from the acceptance and must be done by the pickup."""
    rows, first = task_rules(book).rows, before_pickup(book.tasks)
    codes = {
        row.code.casefold()
        for row in rows
        if row.takes_days or (row.stage == FROM_THE_ACCEPTANCE and row.code.casefold() in first)
    }
    return rules_of(row for row in rows if row.code.casefold() in codes)
