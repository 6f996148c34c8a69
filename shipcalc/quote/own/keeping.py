"""A vehicle that is kept at the yard until the buyer wants it, and is shipped then: the same at home and overseas."""

from collections.abc import Sequence
from datetime import date

from shipcalc.errors import NoAnswer, WrongInput, asked
from shipcalc.money import to_decimal
from shipcalc.pricing.storage import counted
from shipcalc.quote.answer import Answer
from shipcalc.quote.model import Also, Charge, Option
from shipcalc.quote.network.territory import is_home
from shipcalc.quote.own.added import AT_THE_YARD, passed_on, with_charges
from shipcalc.quote.request import Request
from shipcalc.quote.time.days_in_words import day_in_words
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.decisions import decision_table, holding
from shipcalc.ratebook.rows.yards import Storage
from shipcalc.records import replace
from shipcalc.trade import AT_HOME
from shipcalc.vehicles.vehicle import Vehicle

CODE = "yard.storage"


def shipped_then(request: Request) -> Request:
    """Return the request as it is once the vehicle has been kept. Raises WrongInput for a day before it is ready."""
    until = request.wishes.keep_until
    if until is None:
        return request
    if until < request.ready:
        raise WrongInput(
            f"it cannot be kept until {until.isoformat()}, before it is ready ({request.ready.isoformat()})",
            where=asked("keep_until"),
            remedy="give a later day",
        )
    return replace(request, ready=until)


def kept(answer: Answer, request: Request, book: RateBook) -> Answer:
    """Return the choices with storage from the day it is ready to the day it is kept until. Raises NoAnswer without a row."""
    if request.wishes.keep_until is None:
        return answer
    insured = "Kept at the yard: ask whose insurance covers fire, theft and damage there, and have it in writing."
    return replace(
        answer,
        options=kept_options(answer.options, request, book),
        cautions=(*answer.cautions, insured),
    )


def kept_options(options: Sequence[Option], request: Request, book: RateBook) -> tuple[Option, ...]:
    """Return the options with storage, where it is asked for. Raises NoAnswer where the rate book has no row for it."""
    until = request.wishes.keep_until
    if until is None:
        return tuple(options)
    days = (until - request.ready).days
    rows = [storage_row(vehicle, book.storage, until) for vehicle in request.vehicles]
    missing = [v.yard for v, row in zip(request.vehicles, rows, strict=True) if row is None]
    if missing:
        raise NoAnswer(
            f"the rate book has no price for keeping a vehicle{f' at {missing[0]}' if missing[0] else ''}",
            where=asked("keep_until"),
            remedy="add a row to the sheet Storage (trucking.xlsx)",
        )
    found = [(vehicle, row) for vehicle, row in zip(request.vehicles, rows, strict=True) if row is not None]

    stage = AT_HOME if is_home(request.to.country, request.to.subdivision) else AT_THE_YARD

    def stored(option: Option) -> Option:
        charges = (_charge(vehicle, row, days, stage, book) for vehicle, row in found)
        return with_charges(option, [charge for charge in charges if charge.quantity], book)

    return tuple(stored(option) for option in options)


def storage_row(vehicle: Vehicle, rows: tuple[Storage, ...], on: date) -> Storage | None:
    """Return what counts for a vehicle: the first row of its yard, else the first without one, or None."""
    held = holding(decision_table(rows), {"yard": vehicle.yard or None, "day": on})
    return min(held, key=lambda row: not row.yard, default=None)


def _charge(vehicle: Vehicle, row: Storage, days: int, stage: str, book: RateBook) -> Charge:
    free = f"; the first {row.free_days} are free" if row.free_days else ""
    return passed_on(
        code=CODE,
        label=row.storage,
        vehicle=vehicle.stock_number,
        quantity=counted(days, free_days=row.free_days, per=row.per),
        unit=row.per,
        rate=to_decimal(row.amount_minor, book.pricing.currency),
        stage=stage,
        source=row.at.cell("amount_minor"),
        note=f"Kept {days} days{free}.",
    )


def now_instead(then: Option, now: Option, until: date) -> Also:
    """Return what it costs to ship at once instead of keeping it."""
    return Also(
        what="now",
        title=f"Shipped now instead of kept until {day_in_words(until)}",
        total=now.total,
        difference=now.total - then.total,
    )
