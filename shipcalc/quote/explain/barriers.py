"""What is said before any price: rules of entry that bar a vehicle or ask for something."""

from datetime import date
from functools import lru_cache

from shipcalc.errors import NoAnswer
from shipcalc.pricing.landed import age_in_years, is_motorcycle
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.imports import EntryRule
from shipcalc.vehicles.vehicle import Vehicle


def entry_rules(request: Request, book: RateBook, as_of: date) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what the country of arrival restricts and what else it asks for, as sentences with their source.

    Raises NoAnswer where it bars a vehicle.
    """
    told: dict[str, dict[str, None]] = {"restricts": {}, "warns": {}}
    for rule in rules_of(book, request.to.country):
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
        told[rule.answer][f"{_with_source(rule)}."] = None
    return tuple(told["restricts"]), tuple(told["warns"])


@lru_cache(maxsize=1_024)
def rules_of(book: RateBook, country: str) -> tuple[EntryRule, ...]:
    """Return the rules of entry of a country, in the order of the sheet."""
    return tuple(rule for rule in book.entry_rules if rule.country.upper() == country)


def _with_source(rule: EntryRule) -> str:
    return f"{rule.rule.rstrip('.')} ({rule.source})" if rule.source else rule.rule.rstrip(".")


def _concerns(rule: EntryRule, vehicle: Vehicle, day: date) -> bool:
    age = age_in_years(vehicle, day)
    return (
        (rule.age_from is None or age is None or age >= rule.age_from)
        and (rule.age_under is None or (age is not None and age < rule.age_under))
        and rule.motorcycle in (None, is_motorcycle(vehicle))
        and (not rule.built_in or vehicle.built_in.upper() in {code.upper() for code in rule.built_in})
    )
