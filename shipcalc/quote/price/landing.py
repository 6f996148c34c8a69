"""What the buyer's customs may ask, as columns over all ways: each vehicle on its own value and its share of the carriage.

Carriage is divided evenly among the vehicles. All of it is an estimate; the customs of the country decide.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

import numpy as np

from shipcalc.money import Int64, decimals, with_code
from shipcalc.places.gazetteer.regions import country_name
from shipcalc.pricing.facts import age_in_years
from shipcalc.pricing.landed import (
    ELSEWHERE,
    Landed,
    applying_import_charges,
    dearest_origin,
    import_lines,
    in_currency,
    knows_origin,
    sum_on_value,
)
from shipcalc.quote.network.territory import NO_CUSTOMS, is_domestic
from shipcalc.quote.price.doubts import changes_ahead, doubts
from shipcalc.quote.price.exchange import rate_on
from shipcalc.quote.price.paid import Import, Imports
from shipcalc.quote.request import Request
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.decisions import holds
from shipcalc.ratebook.remembered import remembered_by_book
from shipcalc.ratebook.rows.imports import Country, ImportCharge
from shipcalc.records import replace
from shipcalc.trade import COST_STAGES, Treatment
from shipcalc.vehicles.vehicle import Vehicle

TO_THE_SHIP = COST_STAGES[: COST_STAGES.index("main carriage")]
ONWARD = COST_STAGES[COST_STAGES.index("destination terminal") : COST_STAGES.index("import clearance")]


def imports(request: Request, book: RateBook, amounts: Mapping[str, Int64], premium: Int64, *, as_of: date) -> Imports:
    """Return what customs may ask, from the sum of each stage (w,) as it is paid and the premium of the cover (w,)."""
    code = request.to.country
    if is_domestic(code):
        return Imports(None, (), (NO_CUSTOMS,), is_domestic=True)
    country, rows = customs_of(book, code, as_of)
    ways = len(premium)
    if country is None or not rows or any(vehicle.value_minor is None for vehicle in request.vehicles):
        return Imports(country, (), tuple(_why_nothing(request, country, bool(rows))))
    known, notes = with_rates(rows, country, book, as_of)
    given, request = request, counted_as_dearest(request, known, country, book, as_of)
    landed = tuple(_landed(request, amounts, premium, ways))
    found = [
        _import(request, known, landed, book, country, treatment, as_of)
        for treatment in _treatments(request, known, country, as_of)
    ]
    unknown = _unknown_origins(given, request, known, country, book, as_of)
    said = (*notes, *_unknown_ages(request, known), *unknown, *changes_ahead(known, country, as_of))
    stale = book.pricing.source_stale_after_days
    return Imports(country, tuple(found), said, tuple(doubts(_used(found, known), day=as_of, stale_after_days=stale)))


def _used(found: Sequence[Import], rows: Sequence[ImportCharge]) -> list[ImportCharge]:
    """Return the rows that a sum of some treatment is made of."""
    cells = {line.cell for one in found for lines in one.lines for line in lines}
    return [row for row in rows if row.at.cell("flat" if row.percent_ppm is None else "percent_ppm") in cells]


def counted_as_dearest(
    request: Request, rows: Sequence[ImportCharge], country: Country, book: RateBook, day: date
) -> Request:
    """Return the request with each vehicle of unknown origin built where customs ask most, if what they ask hangs on that."""
    vehicles = tuple(as_dearest(vehicle, rows, country, book, day) for vehicle in request.vehicles)
    return request if vehicles == request.vehicles else replace(request, vehicles=vehicles)


def as_dearest(vehicle: Vehicle, rows: Sequence[ImportCharge], country: Country, book: RateBook, day: date) -> Vehicle:
    """Return a vehicle of unknown origin as built where customs ask most of it; any other as it is."""
    return dearest_origin(
        rows,
        vehicle,
        country=country.country.upper(),
        day=day,
        local_minor=lambda applying: local_minor(applying, country, book, day),
    )


def _unknown_origins(
    given: Request, counted: Request, rows: Sequence[ImportCharge], country: Country, book: RateBook, day: date
) -> Iterator[str]:
    """Yield of each vehicle of unknown origin what is counted, and what may be asked of it instead, on its value alone."""
    code, currency = country.country.upper(), book.pricing.currency
    origins = sorted({origin.upper() for row in rows for origin in (*row.built_in, *row.not_built_in)})
    for vehicle, own in zip(given.vehicles, counted.vehicles, strict=True):
        if knows_origin(vehicle) or not origins:
            continue
        cases: list[tuple[Vehicle, Treatment]] = [(own, "ordinary")]
        cases += [(replace(vehicle, built_in=origin), "ordinary") for origin in (ELSEWHERE, *origins)]
        if _may_be_preferred(vehicle, rows, day):
            cases.append((replace(vehicle, built_in=_preferred_origin(rows)), "preference"))
        sums = []
        for case, treatment in cases:
            applying = applying_import_charges(rows, case, country=code, treatment=treatment, day=day)
            sums.append(sum_on_value(applying, case, local_minor(applying, country, book, day)))
        if min(sums) < sums[0]:
            dearer, less = (with_code(minor, currency) for minor in (sums[0], min(sums)))
            yield (
                f"{vehicle.stock_number}: where it was built is not known, and duty and tax hang on it. The dearer case is "
                f"counted, {dearer} on its value alone; with proof of where it was built it may be {less}."
            )


def _unknown_ages(request: Request, rows: Sequence[ImportCharge]) -> Iterator[str]:
    """Yield that duty or tax by age is not counted for a vehicle whose year nobody knows."""
    unknown = [vehicle.stock_number for vehicle in request.vehicles if vehicle.year is None]
    if unknown and any(row.age_from is not None or row.age_under is not None for row in rows):
        yield f"{', '.join(unknown)}: the year is not known, so what customs ask by age is not counted."


@remembered_by_book(1_024)
def customs_of(book: RateBook, code: str, day: date) -> tuple[Country | None, tuple[ImportCharge, ...]]:
    """Return a country's row of a day, if it has one, and what its customs ask, on that day or another."""
    country = next((row for row in book.countries if row.country.upper() == code and holds(row, {"day": day})), None)
    return country, tuple(row for row in book.import_charges if row.country.upper() == code)


def _why_nothing(request: Request, country: Country | None, has_rows: bool) -> Iterator[str]:
    if country is None or not has_rows:
        name = country.name if country else country_name(request.to.country)
        yield f"We have no figures for duty and tax in {name}: they are not in this quote. Ask a customs broker there."
    else:
        yield "The value of a vehicle is not known, so duty and tax could not be estimated."


def _treatments(request: Request, rows: Sequence[ImportCharge], country: Country, day: date) -> Iterator[Treatment]:
    yield "ordinary"
    if any(_may_be_collector(vehicle, country, day) for vehicle in request.vehicles):
        yield "collector"
    if any(_may_be_preferred(vehicle, rows, day) for vehicle in request.vehicles):
        yield "preference"


def _may_be_collector(vehicle: Vehicle, country: Country, day: date) -> bool:
    from_years = country.collector_from_years
    return from_years is not None and (age_in_years(vehicle, day) or 0) >= from_years


def _may_be_preferred(vehicle: Vehicle, rows: Sequence[ImportCharge], day: date) -> bool:
    """Return whether rows hold for the vehicle with proof of origin that hold for no other treatment."""
    own = [row for row in rows if row.treatment == "preference"]
    if not knows_origin(vehicle):
        vehicle = replace(vehicle, built_in=_preferred_origin(rows))
    return any(
        applying_import_charges([row], vehicle, country=row.country.upper(), treatment="preference", day=day)
        for row in own
    )


def _preferred_origin(rows: Sequence[ImportCharge]) -> str:
    """Return the country whose proof of origin makes a country's customs ask less; empty where there is none."""
    return next((code for row in rows if row.treatment == "preference" for code in row.built_in), "")


def _treated(
    vehicle: Vehicle, treatment: Treatment, rows: Sequence[ImportCharge], country: Country, day: date
) -> Treatment:
    """Return how a vehicle is treated where the others are treated so: as ordinary, where it does not meet the conditions."""
    meets = {
        "ordinary": True,
        "collector": _may_be_collector(vehicle, country, day),
        "preference": _may_be_preferred(vehicle, rows, day),
    }
    return treatment if meets[treatment] else "ordinary"


def _import(
    request: Request,
    rows: Sequence[ImportCharge],
    landed: Sequence[Landed],
    book: RateBook,
    country: Country,
    treatment: Treatment,
    day: date,
) -> Import:
    """Return one treatment; a vehicle that does not meet its conditions is treated as ordinary in it."""
    lines = []
    for vehicle, its in zip(request.vehicles, landed, strict=True):
        own = _treated(vehicle, treatment, rows, country, day)
        if own == "preference" and not knows_origin(vehicle):
            vehicle = replace(vehicle, built_in=_preferred_origin(rows))
        applying = applying_import_charges(rows, vehicle, country=request.to.country, treatment=own, day=day)
        lines.append(import_lines(applying, its, local_minor=local_minor(applying, country, book, day)))
    zero: Int64 = np.zeros_like(landed[0].fob)
    total = sum((line.amount[0] for its in lines for line in its), start=zero)
    return Import(treatment, tuple(lines), total)


def _landed(request: Request, amounts: Mapping[str, Int64], premium: Int64, ways: int) -> Iterator[Landed]:
    to_ship, freight, onward = carriage(amounts, np.zeros(ways, dtype=np.int64))
    count = len(request.vehicles)
    for number, vehicle in enumerate(request.vehicles):

        def share_of(sum_minor: Int64, number: int = number) -> Int64:
            return sum_minor * (number + 1) // count - sum_minor * number // count

        yield Landed(
            fob=(vehicle.value_minor or 0) + share_of(to_ship),
            freight=share_of(freight),
            insurance=share_of(premium),
            onward=share_of(onward),
        )


def carriage(amounts: Mapping[str, Int64], nothing: Int64) -> tuple[Int64, Int64, Int64]:
    """Return what carriage comes to until it is on the ship, over the sea and from the border on, by the sums of the stages."""

    def together(stages: Sequence[str]) -> Int64:
        return sum((amounts[stage] for stage in stages if stage in amounts), start=nothing)

    return together(TO_THE_SHIP), together(["main carriage"]), together(ONWARD)


def with_rates(
    rows: Sequence[ImportCharge], country: Country, book: RateBook, day: date
) -> tuple[tuple[ImportCharge, ...], tuple[str, ...]]:
    """Return the rows that can be computed: sums in local currency need its rate."""
    if country.currency.upper() == book.pricing.currency or rate_on(book, country.currency, day) is not None:
        return tuple(rows), ()
    known = tuple(row for row in rows if row.flat is None and row.above is None)
    left = [row.label for row in rows if row not in known]
    if not left:
        return known, ()
    return known, (
        f"No rate of {country.currency.upper()} is in the rate book, so these are not counted: {', '.join(left)}.",
    )


def local_minor(rows: Sequence[ImportCharge], country: Country, book: RateBook, day: date) -> Mapping[str, int]:
    """Return the sums in local currency that rows name, by their code, in minor units of the quote's currency."""
    rate = rate_on(book, country.currency, day)
    units = rate.rate if rate else 1.0
    sums = {row.code: row.flat if row.percent_ppm is None else row.above for row in rows}
    places = decimals(book.pricing.currency)
    return {code: in_currency(local, units, places) for code, local in sums.items() if local is not None}
