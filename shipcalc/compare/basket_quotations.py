"""Transports that single rows of Ocean quotations and Port charges ask for: by the ships that they price, between their ports."""

from collections.abc import Iterator
from functools import partial
from itertools import islice

from shipcalc.compare.basket import ROADSTER, SALOON, SMALL, Asked, Only, several
from shipcalc.compare.conditions import ocean_of
from shipcalc.compare.trial import Trial, places_beside
from shipcalc.ratebook.book import RateBook
from shipcalc.ratebook.rows.ocean import OceanService
from shipcalc.ratebook.rows.port_charges import PortCharge
from shipcalc.ratebook.rows.ports import Port, names_of
from shipcalc.ratebook.rows.quotations import OceanQuotation, quotation_of, size_of
from shipcalc.records import replace
from shipcalc.trade import CROSSING_BY_MODE

_MOST_PAIRS = 2
# Under the first the seller pays all of it, under the second nothing beyond the port of departure.
_TERMS = {"roro": (None, "FOB"), "container": (None, "FCA")}


def of_quotation(row: OceanQuotation, trial: Trial) -> Iterator[Asked]:
    """Yield the ships that a row prices, by themselves: one vehicle, a small one, several."""
    for freight in _freight_of(row, trial.book):
        for service, begin, end in islice(_sailed(row, freight, trial.book), _MOST_PAIRS):
            assert freight.mode is not None, "a sound row of freight names its mode"
            ocean = ocean_of(freight.mode)
            how, only = (
                f"quoted by {row.forwarder}, {row.quotation}",
                Only(ocean=service.service, port=end.port, leaves=begin.port),
            )
            one = partial(trial.asked, how=how, only=only, released=True, ocean=ocean)
            two = (ROADSTER, replace(SALOON, stock_number="basket 2"))
            for start, to in zip(places_beside(begin), places_beside(end), strict=False):
                for ready in (*trial.days_valid(freight), trial.day):
                    for vehicles in ((ROADSTER,), (SMALL,), two, several(ROADSTER, 3)):
                        for term in _TERMS[ocean or "container"]:
                            yield one(to, vehicles, start=start, ready=ready, term=term)


def _freight_of(row: OceanQuotation, book: RateBook) -> Iterator[OceanQuotation]:
    """Yield the row itself, or the freight that a surcharge is on."""
    if row.surcharge is None:
        yield row
        return
    yield from (one for one in book.quotations if one.surcharge is None and quotation_of(one) == quotation_of(row))


def _sailed(row: OceanQuotation, freight: OceanQuotation, book: RateBook) -> Iterator[tuple[OceanService, Port, Port]]:
    """Yield the services that a row of freight prices, each with a pair of ports, as far as a surcharge leaves them open."""
    handled = CROSSING_BY_MODE[freight.mode or "roro"].handled
    ports = [port for port in book.ports if getattr(port, handled)]
    begins = [p for p in ports if p.exports and all(_is_named(p, one.from_port) for one in (row, freight))]
    ends = [p for p in ports if not p.exports and all(_is_named(p, one.to_port) for one in (row, freight))]
    for service in book.ocean:
        is_its_own = freight.line is None or service.carrier.casefold() == freight.line.casefold()
        if is_its_own and service.mode == freight.mode and size_of(freight.basis) in ("", size_of(service.basis)):
            for begin in begins:
                for end in ends:
                    regions = service.from_region.casefold(), service.to_region.casefold()
                    if regions == (begin.region.casefold(), end.region.casefold()):
                        yield service, begin, end


def _is_named(port: Port, name: str | None) -> bool:
    return name is None or name.casefold() in names_of(port)


def of_port_charge(row: PortCharge, trial: Trial) -> Iterator[Asked]:
    """Yield ships of each mode to or from the port alone, on the days on which the row holds."""
    port = next(one for one in trial.book.ports if one.port.casefold() == row.port.casefold())
    for service, begin, end in _calling(row, port, trial.book):
        one = partial(trial.asked, only=Only(ocean=service.service, port=end.port, leaves=begin.port), released=True)
        for start, to in zip(places_beside(begin), places_beside(end), strict=False):
            for ready in (*trial.days_valid(row), trial.day):
                for vehicles in ((ROADSTER,), (SMALL,), several(ROADSTER, 2)):
                    how = f"{row.label} in {port.name}"
                    yield one(to, vehicles, start=start, ready=ready, how=how, ocean=ocean_of(service.mode))


def _calling(row: PortCharge, port: Port, book: RateBook) -> Iterator[tuple[OceanService, Port, Port]]:
    """Yield for each mode that the row is for one service that calls at the port, with the port at its other end."""
    served: set[str] = set()
    for service in book.ocean:
        region, other = service.from_region, service.to_region
        if not port.exports:
            region, other = other, region
        handled = CROSSING_BY_MODE[service.mode].handled
        if service.mode in served or row.mode not in (None, service.mode) or not getattr(port, handled):
            continue
        far = (one for one in book.ports if one.exports != port.exports and getattr(one, handled))
        there = next((one for one in far if one.region.casefold() == other.casefold()), None)
        if there is not None and region.casefold() == port.region.casefold():
            served.add(service.mode)
            yield (service, port, there) if port.exports else (service, there, port)
