"""What is said before any price: destinations that are held, and rules of entry that bar a vehicle or ask for something."""

from collections.abc import Iterator
from datetime import date

from shipcalc.errors import NoAnswer
from shipcalc.pricing.landed import age_in_years, is_motorcycle
from shipcalc.pricing.tariff import is_valid
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.import_rows import EntryRule, Hold
from shipcalc.vehicles.vehicle import Vehicle


def check_holds(request: Request, book: RateBook, as_of: date) -> tuple[str, ...]:
    """Return what must be said of a destination that was released.

    Raises NoAnswer where it is refused, or waits for somebody's release.
    """
    said = []
    for hold in _holds(request, book, as_of):
        source = f" ({hold.source})" if hold.source else ""
        if hold.hold == "refused":
            raise NoAnswer(
                f"{request.to.name} is not quoted: {hold.reason.rstrip('.')}{source}", where=hold.at.cell("hold")
            )
        if not request.wishes.released_by:
            raise NoAnswer(
                f"{request.to.name} waits for release: {hold.reason.rstrip('.')}{source}",
                where=hold.at.cell("hold"),
                remedy="ask whoever answers for export compliance, then name them with --released-by",
            )
        said.append(f"Released for export by {request.wishes.released_by}: {hold.reason}")
    return tuple(said)


def entry_rules(request: Request, book: RateBook, as_of: date) -> tuple[str, ...]:
    """Return what the country of arrival asks for, as sentences with their source.

    Raises NoAnswer where it bars a vehicle.
    """
    warned: dict[str, None] = {}
    for rule in book.entry_rules:
        if rule.country.upper() != request.to.country:
            continue
        concerned = [vehicle for vehicle in request.vehicles if _concerns(rule, vehicle, as_of)]
        if not concerned:
            continue
        if rule.answer == "bars":
            names = ", ".join(vehicle.stock_number for vehicle in concerned)
            raise NoAnswer(
                f"{names} may not enter {request.to.country}: {_with_source(rule)}",
                where=rule.at.cell("rule"),
                remedy="ask a customs broker of that country",
            )
        warned[f"{_with_source(rule)}."] = None
    return tuple(warned)


def _with_source(rule: EntryRule) -> str:
    return f"{rule.rule.rstrip('.')} ({rule.source})" if rule.source else rule.rule.rstrip(".")


def _holds(request: Request, book: RateBook, as_of: date) -> Iterator[Hold]:
    to = request.to
    for hold in book.holds:
        names = {to.subdivision.casefold(), to.name.casefold()}
        is_there = hold.country.upper() == to.country and (
            hold.subdivision is None or hold.subdivision.casefold() in names
        )
        if is_there and is_valid(hold.valid_from, hold.valid_to, as_of):
            yield hold


def _concerns(rule: EntryRule, vehicle: Vehicle, day: date) -> bool:
    age = age_in_years(vehicle, day)
    return (
        (rule.age_from is None or age is None or age >= rule.age_from)
        and (rule.age_under is None or (age is not None and age < rule.age_under))
        and rule.motorcycle in (None, is_motorcycle(vehicle))
        and (not rule.built_in or vehicle.built_in.upper() in {code.upper() for code in rule.built_in})
    )
