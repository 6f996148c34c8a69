"""A request and a rate book become a Quote: the only place where price, papers and dates are joined."""

from collections.abc import Sequence
from datetime import date, timedelta
from decimal import Decimal

import shipcalc
from shipcalc.errors import WrongInput
from shipcalc.money import PPM, half_up, to_decimal, to_minor, with_code
from shipcalc.quote.candidates import Candidate, candidates
from shipcalc.quote.charges import line_numbers, rounding_charge, truck_charges
from shipcalc.quote.choices import Choice, choices, recommended
from shipcalc.quote.distances import Lane, road_lanes
from shipcalc.quote.model import Charge, Dates, Dealer, Leg, Milestone, Option, Quote, RateBookStamp
from shipcalc.quote.paper_trail import Way, papers
from shipcalc.quote.request import Request
from shipcalc.quote.words import CAUTIONS, assumptions, included, not_included
from shipcalc.ratebook.book import RateBook
from shipcalc.schedule.due import home_days

ROAD_STAGE = "road carriage"
HOME_TERM = "DAP"


def make_quote(request: Request, book: RateBook, *, as_of: date, dealer: Dealer) -> Quote:
    """Return the whole answer to a request. Same request, same rate book, same date: the same quote.

    Raises NoAnswer where no road leads there or no carrier can take it, WrongInput where the request contradicts itself.
    """
    _check(request, book, as_of)
    lanes = road_lanes(book, request.starts, request.to)
    starts = [lane.start for lane in lanes]
    lane_of = tuple(starts.index(start) for start in request.starts)
    found, left_out = candidates(request, book, lanes, lane_of, as_of)
    shown = choices(found)
    index, reason = recommended(shown, request.vehicles, book)
    rules = book.pricing
    return Quote(
        as_of=as_of,
        ready=request.ready,
        valid_until=_valid_until(as_of, shown, book),
        currency=rules.currency,
        rate_book=RateBookStamp(fingerprint=book.fingerprint, valid_from=rules.valid_from, valid_to=rules.valid_to),
        program=f"shipcalc {shipcalc.__version__}",
        dealer=dealer,
        buyer=request.buyer,
        wishes=request.wishes,
        from_=request.starts[0],
        to=request.to,
        vehicles=request.vehicles,
        recommended=index,
        reason=reason,
        options=tuple(_option(choice, request, book, lanes, lane_of, as_of) for choice in shown),
        left_out=left_out,
        assumptions=(*assumptions(request, book, lanes), *_rate_book_notes(book, as_of)),
        cautions=CAUTIONS,
    )


def _check(request: Request, book: RateBook, as_of: date) -> None:
    if request.ready < as_of:
        raise WrongInput(
            f"the vehicle cannot be ready on {request.ready.isoformat()}, before the day of the quote ({as_of.isoformat()})",
            where="--ready",
            remedy="give a later date",
        )
    term, currency = request.wishes.term, request.wishes.currency
    if term not in (None, HOME_TERM):
        raise WrongInput(
            f"{term} is not offered for a transport at home",
            where="--term",
            remedy=f"leave it out, or give {HOME_TERM}",
        )
    if currency not in (None, book.pricing.currency):
        raise WrongInput(
            f"the rate book has no rate for {currency}", where="--currency", remedy=f"quote in {book.pricing.currency}"
        )


def _option(
    choice: Choice, request: Request, book: RateBook, lanes: tuple[Lane, ...], lane_of: tuple[int, ...], as_of: date
) -> Option:
    candidate, currency = choice.candidate, book.pricing.currency
    row = candidate.service.row
    charges = _charges(candidate, request, book, lane_of)
    total = sum((charge.amount for charge in charges), start=to_decimal(0, currency))
    assert to_minor(total, currency) == candidate.total_minor, "the lines add up to the price that was compared"
    trailer = choice.trailer
    way = Way(trailer=trailer, to_country=request.to.country, term=HOME_TERM)
    documents, tasks = papers(request, book, way=way, days=home_days(as_of, candidate.dates))
    deposit = half_up(candidate.total_minor * book.pricing.deposit_ppm, PPM)
    return Option(
        title=f"{trailer.capitalize()} trailer",
        good_for=choice.good_for,
        trailer=trailer,
        term=HOME_TERM,
        term_place=request.to.name,
        total=total,
        buyer_pays_locally=to_decimal(0, currency),
        deposit=to_decimal(deposit, currency),
        cover=to_decimal(row.cover_minor, currency),
        total_cost=sum((charge.cost.amount for charge in charges if charge.cost), start=to_decimal(0, currency)),
        legs=_legs(candidate, request, lanes, lane_of),
        charges=charges,
        dates=_dates(candidate, request),
        documents=documents,
        tasks=tasks,
        included=included(request, row.cover_minor, currency),
        not_included=not_included(request, row.cover_minor, currency),
        warnings=_warnings(candidate, request, book),
    )


def _charges(candidate: Candidate, request: Request, book: RateBook, lane_of: tuple[int, ...]) -> tuple[Charge, ...]:
    currency, numbers = book.pricing.currency, line_numbers()
    costing = candidate.cost_lines()
    charges = [
        charge
        for number, vehicle in enumerate(request.vehicles)
        for charge in truck_charges(
            candidate.lines,
            costing,
            vehicle=number,
            lane=lane_of[number],
            stock_number=vehicle.stock_number,
            stage=ROAD_STAGE,
            currency=currency,
            numbers=numbers,
        )
    ]
    so_far = to_minor(sum((charge.amount for charge in charges), start=Decimal(0)), currency)
    rounding = rounding_charge(
        so_far,
        book.pricing.rounding_step_minor,
        cell=book.pricing.cells.get("Rounding step", ""),
        stage=ROAD_STAGE,
        currency=currency,
        line=str(next(numbers)),
    )
    return (*charges, rounding) if rounding else tuple(charges)


def _legs(candidate: Candidate, request: Request, lanes: tuple[Lane, ...], lane_of: tuple[int, ...]) -> tuple[Leg, ...]:
    row = candidate.service.row
    return tuple(
        Leg(
            mode="truck",
            carrier=row.carrier,
            carrier_named=not row.private,
            from_=lane.start,
            to=lane.to,
            great_circle=round(lane.road.great_circle_mi, 2),
            distance=lane.road.miles,
            unit="mi",
            method=lane.road.method,
            method_note=lane.road.note,
            vehicles=tuple(
                vehicle.stock_number for vehicle, at in zip(request.vehicles, lane_of, strict=True) if at == number
            ),
        )
        for number, lane in enumerate(lanes)
    )


def _dates(candidate: Candidate, request: Request) -> Dates:
    when = candidate.dates
    days = "1 day" if when.driving_days == 1 else f"{when.driving_days} days"
    return Dates(
        pickup=when.pickup,
        delivery=when.delivery,
        timeline=(
            Milestone(what="Ready at the yard", earliest=request.ready, latest=request.ready, stage="ready"),
            Milestone(what="Picked up", earliest=when.pickup[0], latest=when.pickup[1], stage="pickup"),
            Milestone(
                what="Delivered",
                earliest=when.delivery[0],
                latest=when.delivery[1],
                note=f"{days} of driving. {when.note}".strip(),
                stage="delivery",
            ),
        ),
    )


def _warnings(candidate: Candidate, request: Request, book: RateBook) -> tuple[str, ...]:
    row, currency = candidate.service.row, book.pricing.currency
    warnings = []
    for vehicle in request.vehicles:
        if vehicle.value_minor is not None and vehicle.value_minor > row.cover_minor:
            warnings.append(
                f"{vehicle.stock_number} is worth {with_code(vehicle.value_minor, currency)}, more than the cover of "
                f"{with_code(row.cover_minor, currency)}: cover for the rest must be agreed in writing before pickup."
            )
        if vehicle.title == "lien":
            warnings.append(f"{vehicle.stock_number} has a lien: it leaves only with the lienholder's release in hand.")
        if vehicle.title in ("missing", "bill of sale only"):
            warnings.append(f"{vehicle.stock_number}: the title is not at hand; ask the buyer's state what it accepts.")
    return tuple(warnings)


def _rate_book_notes(book: RateBook, as_of: date) -> tuple[str, ...]:
    notes = []
    last = book.pricing.valid_to
    if last is not None and last < as_of:
        notes.append(f"The rate book ended on {last.isoformat()}: confirm every price before it is promised.")
    newest = max((row.as_of for row in book.fuel if row.as_of <= as_of), default=None)
    stale_after = timedelta(days=book.pricing.fuel_stale_after_days)
    if newest is not None and as_of - newest > stale_after:
        notes.append(f"The fuel price is of {newest.isoformat()}, more than {stale_after.days} days old.")
    return tuple(notes)


def _valid_until(as_of: date, shown: Sequence[Choice], book: RateBook) -> date:
    ends = [as_of + timedelta(days=book.pricing.days_valid)]
    ends += [choice.candidate.service.row.valid_to for choice in shown if choice.candidate.service.row.valid_to]
    if book.pricing.valid_to is not None:
        ends.append(book.pricing.valid_to)
    return max(as_of, min(ends))
