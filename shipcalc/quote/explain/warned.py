"""What must be minded with one way: worth more than its cover, titles that are not in hand, terms that insure nothing."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from shipcalc.money import with_code
from shipcalc.quote.model import Charge
from shipcalc.quote.network.one_way import OneWay
from shipcalc.quote.price.paid import Sums
from shipcalc.quote.price.terms import Term
from shipcalc.trade import COVER_STAGE, called_by
from shipcalc.vehicles.vehicle import Vehicle

if TYPE_CHECKING:
    from shipcalc.ratebook.rows.imports import Country

ANY_STEERING = "both"


def way_warnings(one: OneWay, sums: Sums, *, is_covered: bool) -> Iterator[str]:
    """Yield what must be minded with one way; `is_covered`: its price holds cover up to what the vehicles are worth."""
    if not one.at_home:
        yield from _beyond(one, sums)
        return
    cover_minor = one.service.row.cover_minor
    for vehicle in one.request.vehicles:
        if vehicle.value_minor is not None and vehicle.value_minor > cover_minor and not is_covered:
            yield (
                _unknown_cover(vehicle)
                if one.covers_unknown
                else _worth_more(vehicle, cover_minor, one.currency, "the cover")
            )


def _worth_more(vehicle: Vehicle, cover_minor: int, currency: str, whose: str) -> str:
    return (
        f"{vehicle.stock_number} is worth {with_code(vehicle.value_minor or 0, currency)}, more than {whose} of "
        f"{with_code(cover_minor, currency)}: cover for the rest must be agreed in writing before pickup."
    )


def _unknown_cover(vehicle: Vehicle) -> str:
    return (
        f"{vehicle.stock_number}: what covers it on this truck is not known yet; it must be seen and agreed in writing before "
        "pickup."
    )


def title_warnings(vehicles: Sequence[Vehicle]) -> Iterator[str]:
    """Yield what a title that is not in hand means for handing the vehicles over."""
    for vehicle in vehicles:
        if vehicle.title == "lien":
            yield f"{vehicle.stock_number} has a lien: it leaves only with the lienholder's release in hand."
        if vehicle.title in ("missing", "bill of sale only"):
            yield f"{vehicle.stock_number}: the title is not at hand; ask the buyer's state what it accepts."


def titles_at_the_border(vehicles: Sequence[Vehicle]) -> Iterator[str]:
    """Yield what a title that is not simply in hand means for leaving the country."""
    for vehicle in vehicles:
        if vehicle.title == "lien":
            yield (
                f"{vehicle.stock_number} has a lien: customs let it out only with the lienholder's written release "
                "(19 CFR 192.2(b)), so get it first."
            )
        if vehicle.title in ("missing", "bill of sale only", "salvage"):
            yield (
                f"{vehicle.stock_number}: customs ask for the original title and copies (19 CFR 192.2); this one's papers need "
                "to be cleared first."
            )


def _beyond(one: OneWay, sums: Sums) -> Iterator[str]:
    cover, cover_minor = sums.cover.by_mode.get(one.mode), one.service.row.cover_minor
    for vehicle in one.request.vehicles:
        if vehicle.value_minor is None:
            unknown = f"{vehicle.stock_number}: its value is not known"
            yield f"{unknown}, so no {one.called.cover} is in the price; name it before booking."
        elif vehicle.value_minor > cover_minor and cover is None:
            yield (
                _unknown_cover(vehicle)
                if one.covers_unknown
                else _worth_more(vehicle, cover_minor, one.currency, "the truck's cover")
            )
    if cover is not None and cover[0].conditions != "A":
        yield (
            f"Conditions {cover[0].conditions} leave out theft, scratches and dents in handling, which are what a collector's "
            "vehicle suffers most; conditions A cover them."
        )
    if sums.term.must_insure == "C" and cover is not None and cover[0].conditions == "A":
        yield "CIF asks for conditions C only; A is quoted, because C leaves out theft and damage in handling."


def to_be_insured(charges: Sequence[Charge], term: Term, *, mode: str, currency: str) -> Iterator[str]:
    """Yield what the buyer must insure, where nobody insures the vehicle at sea in this price."""
    if mode == "truck" or term.payer(COVER_STAGE) == "seller":
        return
    premium = next((charge for charge in charges if charge.code == "cover.premium"), None)
    passes = term.risk_passes.partition(";")[0]
    risk = f"Under {term.code} the risk passes to you {passes}, and no {called_by((mode,))[0].cover} is in the price"
    if premium is None:
        yield f"{risk}: have it insured before then."
        return
    yield (
        f"{risk}: have it insured for {premium.quantity:,.0f} {currency} before then. "
        f"About {premium.amount:,.0f} {currency} for that is counted in addition to the price."
    )


def country_notes(country: "Country | None") -> Iterator[str]:
    """Yield what the rate book has the buyer know of the country: what is not counted, which steering is registered."""
    if country is not None and country.note:
        yield f"{country.name}: {country.note.rstrip('.')}."
    if country is not None and country.steering and country.steering != ANY_STEERING:
        yield f"{country.name}: steering {country.steering}."
