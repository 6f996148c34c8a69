"""What is said before any price: rules of entry that bar a vehicle or ask for something."""

from datetime import date

from shipcalc.errors import NoAnswer
from shipcalc.places.gazetteer.regions import country_name
from shipcalc.pricing.facts import vehicle_facts
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.decisions import decision_table, holding, holding_numbers
from shipcalc.ratebook.remembered import remembered_by_book
from shipcalc.ratebook.rows.imports import EntryRule
from shipcalc.vehicles.vehicle import Vehicle


def entry_rules(request: Request, book: RateBook, as_of: date) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what the country of arrival restricts and what else it asks for, as sentences with their source.

    Raises NoAnswer where it bars a vehicle. Where it depends on a year that nobody knows, it is said, and nothing is barred.
    """
    told: dict[str, dict[str, None]] = {"restricts": {}, "warns": {}}
    rules, concern = rules_of(book, request.to.country, as_of), dict[int, list[Vehicle]]()
    table = decision_table(rules, "vehicle")
    for vehicle in request.vehicles:
        for number in holding_numbers(table, vehicle_facts(vehicle, aged_on=as_of)):
            concern.setdefault(number, []).append(vehicle)
    for number, concerned in sorted(concern.items()):
        rule = rules[number]
        unknown = [vehicle.stock_number for vehicle in concerned if _asks_age(rule) and vehicle.year is None]
        if rule.answer == "bars" and len(unknown) == len(concerned):
            told["restricts"][f"{', '.join(unknown)}: the year is not known, and may bar it: {_with_source(rule)}."] = (
                None
            )
            continue
        if rule.answer == "bars":
            names = ", ".join(vehicle.stock_number for vehicle in concerned)
            raise NoAnswer(
                f"{names} may not enter {country_name(request.to.country)}: {_with_source(rule)}",
                where=rule.at.cell("rule"),
                remedy="ask a customs broker of that country",
            )
        told[rule.answer][f"{_with_source(rule)}."] = None
    return tuple(told["restricts"]), tuple(told["warns"])


@remembered_by_book(1_024)
def rules_of(book: RateBook, country: str, day: date) -> tuple[EntryRule, ...]:
    """Return the rules of entry of a country on the day of a quote, in the order of the sheet."""
    return holding(decision_table(book.entry_rules, "shipment", "day"), {"to_country": country, "day": day})


def _asks_age(rule: EntryRule) -> bool:
    return rule.age_from is not None or rule.age_under is not None


def _with_source(rule: EntryRule) -> str:
    return f"{rule.rule.rstrip('.')} ({rule.source})" if rule.source else rule.rule.rstrip(".")
