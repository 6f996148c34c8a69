"""A way becomes an option of the quote: its lines, dates, papers, and what is said about it."""

from collections.abc import Iterator
from datetime import date
from decimal import Decimal

import numpy as np

from shipcalc.money import PPM, half_up, to_decimal, to_minor
from shipcalc.quote.choose.ways import Found
from shipcalc.quote.edges.kinds import days, timeline
from shipcalc.quote.explain import driven
from shipcalc.quote.explain.loading import in_short, is_driven, on_own_wheels, on_the_road, on_truck
from shipcalc.quote.explain.paper_trail import Way, needed_from_buyer, papers
from shipcalc.quote.explain.price_holds import more_cover, what_it_holds
from shipcalc.quote.explain.titles import paid_by_seller, term_place, title_of
from shipcalc.quote.explain.warned import title_warnings, to_be_insured, way_warnings
from shipcalc.quote.explain.when_it_happens import when_it_happens
from shipcalc.quote.model import Charge, InHand, Loaded, Option, Window
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.network.territory import is_domestic, is_filed
from shipcalc.quote.price.lines import import_estimates, way_charges
from shipcalc.quote.price.paid import Sums
from shipcalc.quote.price.terms import importer_warnings
from shipcalc.quote.time.deadline import latest_ready
from shipcalc.records import dataclass, replace
from shipcalc.trade import COVER_STAGE, CROSSING_BY_MODE


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What is said of every way of an answer: what may change the decision, the other warnings, and what was taken for granted.

    `ways` are those shown.
    """

    before_price: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    ways: tuple[int, ...] = ()


def option_of(one: OneWay, found: Found, said: Said, *, as_of: date, good_for: tuple[str, ...] = ()) -> Option:
    """Return one of the ways as a choice."""
    request, book, sums, currency = one.request, one.book, found.sums, one.currency
    charges = way_charges(one, found.parts, sums)
    total, locally = (_paid_by(payer, charges, currency) for payer in ("seller", "buyer"))
    assert to_minor(total, currency) == sums.total[one.number], "the lines add up to the price that was compared"
    assert to_minor(locally, currency) == sums.locally[one.number], "the buyer's lines add up to what was compared"
    loading = _loading(one)
    aboard = "" if one.at_home or is_driven(loading, request.vehicles) else in_short(loading)
    told = timeline(one, found.days, agreed=as_of, aboard=aboard)
    trail = _paper_way(one, sums, loading)
    documents, tasks = papers(request, book, way=trail, days=told.moments)
    holds = what_it_holds(one, charges, sums)
    return Option(
        title=title_of(one, aboard),
        good_for=good_for,
        trailer=one.trailer,
        ocean=CROSSING_BY_MODE[one.mode].ocean,
        term=sums.term.code,
        term_place=term_place(one, sums.term),
        risk_passes=sums.term.risk_passes,
        total=total,
        buyer_pays_locally=locally,
        landed=_landed(one, total + locally),
        balance_due=book.pricing.balance_due,
        deposit=to_decimal(half_up(to_minor(total, currency) * book.pricing.deposit_ppm, PPM), currency),
        cover=_covered(one, charges, sums),
        cover_conditions=_conditions(one, sums),
        total_cost=sum((charge.cost.amount for charge in charges if charge.cost), start=to_decimal(0, currency)),
        legs=told.legs,
        loading=loading,
        charges=charges,
        dates=told.dates,
        latest_ready=_latest_ready(one),
        imports=import_estimates(one, sums),
        to_check=sums.imports.doubts,
        needed_from_buyer=needed_from_buyer(request, book, way=trail, days=told.moments),
        documents=documents,
        tasks=tasks,
        included=holds.included,
        not_included=holds.not_included,
        arrives=one.reaches_the_door,
        when_it_happens=() if one.in_the_yard else when_it_happens(one),
        service_class="" if one.in_the_yard or one.service.offer is None else one.service.offer.name,
        in_hand=_in_hand(one, charges, told.dates.pickup, as_of),
        before_price=tuple(_before_price(one, charges, sums, said)),
        warnings=tuple(_warnings(one, charges, sums, said, told.warnings)),
    )


def _warnings(
    one: OneWay, charges: tuple[Charge, ...], sums: Sums, said: Said, of_edges: tuple[str, ...]
) -> Iterator[str]:
    """Yield what must be minded; of what the buyer fetches, where and how comes first."""
    if one.request.fetched is not None:
        yield from of_edges
    yield from said.warnings
    if not one.in_the_yard:
        yield from on_the_road(one.request.vehicles) if one.trailer else driven.DRIVING
        yield from way_warnings(one, sums, is_covered=more_cover(charges, one.book) is not None)
    if one.request.fetched is None:
        yield from of_edges


def _in_hand(one: OneWay, charges: tuple[Charge, ...], pickup: Window, as_of: date) -> InHand | None:
    if one.in_the_yard or one.service.spot is None:
        return None
    from shipcalc.quote.explain.in_hand import price_in_hand  # late: few quotes have one

    return price_in_hand(one, charges, pickup, as_of)


def _paid_by(payer: str, charges: tuple[Charge, ...], currency: str) -> Decimal:
    return sum((charge.amount for charge in charges if charge.payer == payer), start=to_decimal(0, currency))


def _loading(one: OneWay) -> tuple[Loaded, ...]:
    """Return how each vehicle goes onto what carries it over the longest leg."""
    if one.in_the_yard:
        return ()
    if one.trailer is None:
        return on_own_wheels(one.request.vehicles)
    if one.ship is None:
        return on_truck(one.request.vehicles)
    from shipcalc.quote.explain.handling import loaded

    return loaded(one)


def _paper_way(one: OneWay, sums: Sums, loading: tuple[Loaded, ...]) -> Way:
    """Return how a way travels, as far as its papers depend on it."""
    country, treatments = one.request.to.country, sums.imports.treatments
    return Way(
        trailer=one.trailer,
        to_country=country,
        mode=one.travels,
        overseas=not is_domestic(country),
        export_filing=is_filed(country),
        term=sums.term.code,
        seller_pays=paid_by_seller(one, sums.term),
        treatment=treatments[0].treatment if treatments else None,
        collector_from_years=sums.imports.collector_from_years,
        loading=loading,
    )


def _before_price(one: OneWay, charges: tuple[Charge, ...], sums: Sums, said: Said) -> Iterator[str]:
    """Yield what may change the buyer's decision, of this way and of all."""
    vehicles = one.request.vehicles
    if not one.network.leads_abroad:
        yield from title_warnings(vehicles)
        yield from said.before_price
        if one.trailer is None and not one.in_the_yard:
            yield from driven.before_driving(vehicles, one.network.lanes, one.network.lane_of(one.end))
        return
    # Late: what is said of ships, ports and customs, no quote at home need import.
    from shipcalc.quote.explain.before_price import ends_at_the_port, hand_over_missing, passages_of_the_day
    from shipcalc.quote.explain.handling import unpriced_handling
    from shipcalc.quote.price.seasonal import told_of

    yield from to_be_insured(charges, sums.term, mode=one.mode, currency=one.currency)
    yield from said.before_price
    yield from ends_at_the_port(one)
    yield from passages_of_the_day(one, said.ways)
    yield from told_of(one.number, one.book, sums.seasonal)
    yield from importer_warnings(sums.term, one.request.to.country)
    yield from hand_over_missing(one)
    yield from unpriced_handling(one)


def _landed(one: OneWay, paid: Decimal) -> Decimal | None:
    """Return all that the buyer will have paid, the vehicles with it; None at home and where a value is not known."""
    values = [vehicle.value_minor for vehicle in one.request.vehicles]
    if one.at_home or None in values:
        return None
    return paid + to_decimal(sum(value for value in values if value is not None), one.currency)


def _conditions(one: OneWay, sums: Sums) -> str:
    """Return under which conditions the price covers the vehicles at sea; "" where it does not."""
    cover = sums.cover.by_mode.get(one.mode) if sums.term.payer(COVER_STAGE) == "seller" else None
    return cover[0].conditions if cover else ""


def _covered(one: OneWay, charges: tuple[Charge, ...], sums: Sums) -> Decimal:
    """Return the insured sum of the marine cover that the price holds, without a ship the truck's own cover, else nothing.

    At home a line may raise the truck's cover to what the vehicles are worth.
    """
    if one.in_the_yard:
        return to_decimal(0, one.currency)
    truck_minor = one.service.row.cover_minor
    if one.at_home:
        values = [vehicle.value_minor or 0 for vehicle in one.request.vehicles]
        raised = more_cover(charges, one.book) is not None
        return to_decimal(max(truck_minor, *values) if raised else truck_minor, one.currency)
    insured = next(
        (charge.quantity for charge in charges if charge.code == "cover.premium" and charge.payer == "seller"), None
    )
    if insured is None and (one.ship is not None or "main carriage" not in sums.term.seller_pays):
        return to_decimal(0, one.currency)
    return insured if insured is not None else to_decimal(truck_minor, one.currency)


def _latest_ready(one: OneWay) -> date | None:
    own = one.ways.only(np.array([one.number]))

    def delivered(ready: date) -> date | None:
        when = days(replace(one.request, ready=ready), one.book, one.network, own)
        return date.fromordinal(int(when.delivery.latest[0])) if when.possible[0] else None

    return latest_ready(one.request, delivered)
