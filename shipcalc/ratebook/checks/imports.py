"""What must be true of the buyers' countries: their duty and tax, their rules of entry."""

import itertools
from collections.abc import Iterator

from shipcalc.errors import Problem
from shipcalc.ratebook.checks.remarks import fault, short_cell, warning
from shipcalc.ratebook.checks.stages import countries_in, currency_in, one_of_two, rows_stand_once
from shipcalc.ratebook.rows.ferries import Ferry
from shipcalc.ratebook.rows.ferries_abroad import FerryAbroad
from shipcalc.ratebook.rows.imports import Country, EntryRule, Hold, ImportCharge
from shipcalc.ratebook.rows.paperwork import DocumentRow, FromBuyerRow, TaskRow
from shipcalc.ratebook.rows.pricing_settings import currency_of
from shipcalc.ratebook.rows.road_factors import RoadFactor
from shipcalc.ratebook.rows.sourced import READ
from shipcalc.ratebook.rows.tables import Tables
from shipcalc.ratebook.rows.ways import Gateway, PassageState
from shipcalc.trade import IMPORT_TREATMENTS

Sourced = (
    RoadFactor
    | Ferry
    | FerryAbroad
    | Gateway
    | PassageState
    | DocumentRow
    | TaskRow
    | FromBuyerRow
    | Country
    | ImportCharge
    | EntryRule
    | Hold
)


def countries_are_whole(tables: Tables) -> Iterator[Problem]:
    """A country is told by its ISO 3166-1 letters, with a currency that there is and that has a rate."""
    home = currency_of(tables.settings)
    rates = {row.currency.upper() for row in tables.currencies} | {home}
    for row in tables.countries:
        yield from countries_in(row, "country", (row.country,))
        yield from currency_in(row, row.currency)
        is_missing = tables.currencies and row.currency.upper() not in rates
        if is_missing and not tables.may_stand_in("Currencies", row.currency):
            message = f"the sheet Currencies has no rate of {row.currency}, so no sum in it is counted"
            yield warning(row, "currency", message, "add a row there")


def countries_stand_once(tables: Tables) -> Iterator[Problem]:
    """A country stands once, on any day."""
    yield from rows_stand_once(tables.countries, ("country",), "country")


def import_charges_have_one_sum(tables: Tables) -> Iterator[Problem]:
    """A duty or tax is a percentage of a base, or a flat sum."""
    for row in tables.import_charges:
        yield from one_of_two(row, "percent_ppm", "flat")
        if row.percent_ppm is not None and row.base is None:
            yield fault(row, "base", "it is not said what the percentage is of", "choose the base")
        elif row.percent_ppm is None and row.above is not None:
            yield fault(row, "above", "only a percentage can be above a sum", "empty it, or fill the percentage")


def import_charges_can_apply(tables: Tables) -> Iterator[Problem]:
    """A duty or tax has conditions that some vehicle can meet."""
    from_years = {row.country.upper(): row.collector_from_years for row in tables.countries}
    for row in tables.import_charges:
        yield from countries_in(row, "built_in", row.built_in)
        yield from countries_in(row, "not_built_in", row.not_built_in)
        yield from _ranges(row)
        code = row.country.upper()
        if row.treatment == "collector" and code in from_years and from_years[code] is None:
            message = f"no vehicle is treated as a collector's piece in {row.country}, so the row never counts"
            yield warning(
                row, "treatment", message, "say on the sheet Countries from which age one is, or remove the row"
            )


def import_charges_stand_once(tables: Tables) -> Iterator[Problem]:
    """A code stands once for a country and treatment; a row for all treatments stands for each of them."""
    first: dict[tuple[str, str, str], ImportCharge] = {}
    for row in tables.import_charges:
        treatments = (row.treatment,) if row.treatment else IMPORT_TREATMENTS
        earlier = [
            first.setdefault((row.country.casefold(), row.code.casefold(), treatment), row) for treatment in treatments
        ]
        twice = next((other for other in earlier if other is not row), None)
        if twice is not None:
            message = f'"{row.code}" is already used for {row.country} at {short_cell(twice, "code")}'
            yield fault(row, "code", message, "give one of the two another code, or another treatment")


def what_was_not_read_has_no_day(tables: Tables) -> Iterator[Problem]:
    """Checked on is the day of a copy that somebody read: it stands with nothing learnt otherwise."""
    sheets: tuple[tuple[Sourced, ...], ...] = (
        tables.road_factors,
        tables.ferries,
        tables.ferries_abroad,
        tables.gateways,
        tables.passages,
        tables.documents,
        tables.tasks,
        tables.from_buyer,
        tables.countries,
        tables.import_charges,
        tables.entry_rules,
        tables.holds,
    )
    for row in itertools.chain.from_iterable(sheets):
        if row.trust is not None and row.trust not in READ and row.checked_on is not None:
            message = f'Trust says "{row.trust}", so nobody read the source on that day'
            yield warning(row, "checked_on", message, "empty it, or read the source and write read under Trust")


def entry_ages_rise(tables: Tables) -> Iterator[Problem]:
    """A rule of entry holds for some age."""
    for row in tables.entry_rules:
        if row.age_from is not None and row.age_under is not None and row.age_under <= row.age_from:
            message = f"no vehicle is {row.age_from} years old and under {row.age_under}"
            yield fault(row, "age_under", message, "swap the two, or empty one")


def _ranges(row: ImportCharge) -> Iterator[Problem]:
    if row.age_from is not None and row.age_under is not None and row.age_under <= row.age_from:
        message = f"no vehicle is {row.age_from} years old and under {row.age_under}"
        yield fault(row, "age_under", message, "swap the two, or empty one")
    over, up_to = row.engine_over_cc, row.engine_up_to_cc
    if over is not None and up_to is not None and up_to <= over:
        yield fault(row, "engine_up_to_cc", f"no engine is over {over} cc and up to {up_to}", "swap the two")


CHECKS = (
    countries_stand_once,
    countries_are_whole,
    import_charges_have_one_sum,
    import_charges_can_apply,
    import_charges_stand_once,
    entry_ages_rise,
    what_was_not_read_has_no_day,
)
